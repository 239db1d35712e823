"""Ribbons keep apart, hatch what came through a heel, and fade what is not in reach."""

from dataclasses import replace

import pytest
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look
from honeyledger.desktop.models.river_layout import RiverGeometry, lay_out_river
from honeyledger.desktop.widgets.river_paint import (
    Shown,
    foot_words,
    paint_river,
    plate_measure,
    ribbon_edges,
    ribbon_path,
    spine_area,
)
from tests.desktop.gallery_trace import graph

WIDTH, HEIGHT = 1400, 400


@pytest.fixture
def geometry() -> RiverGeometry:
    return lay_out_river(graph(), WIDTH, HEIGHT, plate_measure)


def _drawn(geometry: RiverGeometry, shown: Shown) -> QImage:
    image = QImage(WIDTH, HEIGHT, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    painter = QPainter(image)
    paint_river(painter, geometry, graph().columns, shown)
    painter.end()
    return image


def test_a_ribbon_is_drawn_inside_its_slot_so_that_neighbours_stand_apart(
    geometry: RiverGeometry,
) -> None:
    for placed in geometry.ribbons:
        box = ribbon_path(placed).boundingRect()
        top = min(placed.top_left, placed.top_right)
        bottom = max(placed.top_left, placed.top_right) + placed.thickness
        assert box.top() >= top
        assert box.bottom() <= bottom + 1e-6
        assert box.left() == pytest.approx(placed.left)
        assert box.right() == pytest.approx(placed.right)
        assert ribbon_edges(placed).elementCount() > 0


def test_spines_are_ink_and_ribbons_begin_in_the_colour_of_their_source(
    geometry: RiverGeometry,
) -> None:
    image = _drawn(geometry, Shown())
    spine = geometry.spine("Y09")
    assert spine is not None
    assert image.pixelColor(int(spine.left) + 6, int(spine.middle)).name() == (
        look.colour("ink").name()
    )
    plate = spine.plate
    assert plate is not None
    inside = image.pixelColor(int(plate.left) + 1, int(plate.top) + 1).name()
    assert inside == look.colour("sheet").name()


def test_what_is_not_in_reach_of_what_is_pointed_at_fades(geometry: RiverGeometry) -> None:
    whole = _drawn(geometry, Shown())
    lit = frozenset(graph().reach("Y22"))
    faded = _drawn(geometry, Shown(pointed="Y22", lit=lit))
    far, near = geometry.spine("Y14"), geometry.spine("Y22")
    assert far is not None
    assert near is not None

    def ink(image: QImage, x: float, y: float) -> str:
        return image.pixelColor(int(x) + 6, int(y)).name()

    assert ink(faded, near.left, near.middle) == ink(whole, near.left, near.middle)
    pale = ink(faded, far.left, far.middle)
    assert pale not in (look.colour("ink").name(), look.colour("sheet").name())


def test_a_chosen_lot_has_a_frame_and_the_one_with_the_keyboard_a_ring(
    geometry: RiverGeometry,
) -> None:
    image = _drawn(geometry, Shown(selected="Y09", focused="Y14"))
    chosen = geometry.spine("Y09")
    focused = geometry.spine("Y14")
    assert chosen is not None
    assert focused is not None
    frame = image.pixelColor(int(chosen.left) - 3, int(chosen.middle)).name()
    assert frame == look.colour("act").name()
    area = spine_area(focused)
    ring = image.pixelColor(int(area.left()) - 4, int(area.center().y())).name()
    assert ring == look.colour("focus").name()


def test_a_small_lot_is_named_while_it_is_pointed_at(geometry: RiverGeometry) -> None:
    thread = geometry.spine("S26-0417-5")
    assert thread is not None
    assert thread.plate is None
    assert _drawn(geometry, Shown()) != _drawn(geometry, Shown(pointed="S26-0417-5"))


def test_only_what_came_through_a_heel_is_hatched(geometry: RiverGeometry) -> None:
    image = _drawn(geometry, Shown())
    hatched = {True: 0, False: 0}
    for placed in geometry.ribbons:
        if placed.thickness < 12:
            continue
        x = int(placed.level_from + 4)
        top = int(placed.top_left)
        column = [
            image.pixelColor(x + step, top + int(placed.thickness / 2)) for step in range(24)
        ]
        dark = sum(one.lightness() < 110 for one in column)
        hatched[placed.ribbon.heel] += dark
    assert hatched[True] > 0
    assert hatched[False] == 0


def test_a_plate_is_measured_in_the_hand_it_is_written_in() -> None:
    assert plate_measure("Tamarack Rise") > 0
    assert plate_measure("S26-0423-9") > plate_measure("S26")


@pytest.mark.parametrize(
    ("undrawn", "says"),
    [
        (1, "One thread more is drawn when its lot is pointed at. "),
        (260, "260 threads more are drawn when their lot is pointed at. "),
    ],
)
def test_the_foot_counts_what_is_not_drawn(
    geometry: RiverGeometry, undrawn: int, says: str
) -> None:
    plain = foot_words(geometry)
    assert plain == [f"{geometry.scale.words}. A screen’s colour is not a reading.", plain[1]]
    assert foot_words(replace(geometry, undrawn=undrawn)) == [says + plain[0], *plain]
