"""Every icon the window asks for is drawn, in the colour asked for, on the grid of 24."""

from pathlib import Path

import pytest
from PySide6.QtGui import QImage, QPainter

from honeyledger import assets
from honeyledger.desktop import icons, look
from honeyledger.domain.refusals import Refusal

FOLDER = assets.resource("icons")
NAMES = sorted(path.stem for path in FOLDER.glob("*.svg"))


def _drawn(name: str, colour: str) -> QImage:
    image = QImage(24, 24, QImage.Format.Format_ARGB32)
    image.fill(0)
    painter = QPainter(image)
    try:
        icons.draw(painter, name, 0, 0, 24, colour)
    finally:
        painter.end()
    return image


@pytest.mark.parametrize("name", NAMES)
def test_an_icon_covers_part_of_its_square(name: str) -> None:
    image = _drawn(name, "ink")
    inked = sum(image.pixelColor(x, y).alpha() > 100 for x in range(24) for y in range(24))
    assert 20 < inked < 560


def test_an_icon_takes_the_colour_of_a_token() -> None:
    image = _drawn("more", "act")
    assert image.pixelColor(12, 12).name() == look.colour("act").name()


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.svg")), ids=lambda path: path.stem)
def test_icons_are_strokes_of_two_with_square_ends(path: Path) -> None:
    text = path.read_text("utf-8")
    if path.stem == "honeyledger":
        assert 'viewBox="0 0 64 64"' in text
        return
    assert 'viewBox="0 0 24 24"' in text
    assert 'stroke-width="2"' in text
    assert 'stroke-linecap="square"' in text


def test_an_icon_that_is_missing_is_refused_by_name() -> None:
    with pytest.raises(Refusal, match="no-such-icon"):
        _drawn("no-such-icon", "ink")


def test_the_program_has_a_mark() -> None:
    assert not icons.program_icon().isNull()
