"""The channel is one band: its thickness and colour change smoothly where pieces meet."""

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look
from honeyledger.desktop.colouring import pfund_colour
from honeyledger.desktop.models.line_figures import Flow
from honeyledger.desktop.models.line_layout import Piece
from honeyledger.desktop.widgets.line_channel import (
    Stretch,
    between,
    channel_path,
    draw_channel,
    draw_gap,
    stretches,
)

MIDDLE = 20.0


def _image(channel: list[Stretch]) -> QImage:
    image = QImage(300, 40, QImage.Format.Format_RGB32)
    image.fill(look.colour("band"))
    painter = QPainter(image)
    draw_channel(painter, channel, MIDDLE)
    painter.end()
    return image


def _thickness(image: QImage, x: int) -> int:
    band = look.colour("band").name()
    return sum(image.pixelColor(x, y).name() != band for y in range(40))


def test_a_piece_knows_whether_anything_flowed_and_was_read() -> None:
    pieces = [
        Piece(0, 100, 20, Flow(500, 30.0)),
        Piece(100, 200, 4, Flow(0, None)),
        Piece(200, 300, 8, Flow(200, None)),
    ]
    assert [one.kind for one in stretches(pieces)] == ["honey", "empty", "unread"]


def test_thickness_changes_over_24_pixels_where_pieces_meet() -> None:
    image = _image([Stretch(0, 150, 20, "honey", 20), Stretch(150, 300, 8, "honey", 60)])
    assert _thickness(image, 100) == 20
    assert _thickness(image, 137) == 20
    assert _thickness(image, 163) == 8
    assert 8 < _thickness(image, 150) < 20


def test_colour_is_that_of_the_piece_with_an_edge_on_both_sides() -> None:
    image = _image([Stretch(0, 150, 20, "honey", 20), Stretch(150, 300, 20, "honey", 60)])
    assert image.pixelColor(60, 20).name().upper() == pfund_colour(20)
    assert image.pixelColor(240, 20).name().upper() == pfund_colour(60)
    edge = look.theme().honey_edge
    assert image.pixelColor(60, 10).name().upper() == edge
    assert image.pixelColor(60, 29).name().upper() == edge


def test_no_flow_is_two_thin_lines() -> None:
    image = _image([Stretch(0, 300, 4, "empty", None)])
    edge = look.theme().edge
    assert [y for y in range(40) if image.pixelColor(150, y).name().upper() == edge] == [18, 21]


def test_honey_thins_to_the_lines_where_it_ends() -> None:
    run = [Stretch(0, 100, 20, "honey", 30)]
    open_end = channel_path(run, MIDDLE, opens=False, closes=False).boundingRect()
    assert open_end.height() == pytest.approx(19)
    image = _image([*run, Stretch(100, 300, 4, "empty", None)])
    assert _thickness(image, 60) == 20
    assert _thickness(image, 99) <= 6


def test_an_unread_flow_has_no_honey_colour() -> None:
    image = _image([Stretch(0, 300, 20, "unread", None)])
    names = {image.pixelColor(x, 20).name().upper() for x in range(20, 280)}
    assert look.theme().well in names
    assert look.theme().honey_edge not in names


def test_a_change_passes_through_what_lies_between() -> None:
    before = [Stretch(0, 300, 20, "honey", 20)]
    after = [Stretch(0, 300, 8, "honey", 60)]
    half = between(before, after, 0.5)[0]
    assert (half.thickness, half.mm) == (14, 40)
    assert between(before, after, 1.0) == after


def test_between_two_places_a_bit_of_it_is_seen_without_ends() -> None:
    image = QImage(40, 40, QImage.Format.Format_RGB32)
    image.fill(look.colour("band"))
    painter = QPainter(image)
    draw_gap(painter, QRectF(10, 0, 8, 40), Stretch(0, 300, 20, "honey", 30), MIDDLE)
    painter.end()
    assert _thickness(image, 9) == 0
    assert _thickness(image, 18) == 0
    row = {image.pixelColor(x, 20).name().upper() for x in range(10, 18)}
    assert row == {pfund_colour(30)}
