"""A paper on the screen: its PDF in the screen's own dots, in its own shape."""

from collections.abc import Iterator
from dataclasses import replace
from threading import current_thread, main_thread

import pytest
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.widgets.paper_look import PaperLook, picture
from honeyledger.documents import raster
from honeyledger.documents.raster import NO_READER, Box, Dots
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from tests.support import printing
from tests.support.reading import READ

SHEET = printing.stocks().named("a4-24-70x37")
ROLL = printing.stocks().named("roll-100x150")
PAPER = SeenPaper(
    "D26-0611-Y",
    READ["drum label"][0](
        [printing.drum_label()] * 2, ROLL, plain_printer(ROLL), printing.typefaces()
    ),
    2,
    (100, 150),
)
PAGES = SeenPaper(
    "Labels",
    READ["jar label"][0](
        [printing.jar_label()] * 30, SHEET, plain_printer(SHEET), printing.typefaces()
    ),
    2,
    (210, 297),
)


@pytest.fixture
def look(qtbot: QtBot) -> Iterator[PaperLook]:
    jobs = Jobs()
    made = PaperLook(jobs)
    qtbot.addWidget(made)
    made.resize(500, 600)
    made.show_paper(PAPER)
    made.show()
    yield made
    jobs.close()


def _made(qtbot: QtBot, look: PaperLook) -> QImage:
    def is_made() -> bool:
        look.grab()
        image = look.image()
        dots = look.devicePixelRatioF()
        return image is not None and abs(image.width() - look.paper().width() * dots) <= 1

    qtbot.waitUntil(is_made)
    image = look.image()
    assert image is not None
    return image


def test_the_paper_is_as_large_as_there_is_room_in_its_own_shape(look: PaperLook) -> None:
    paper = look.paper()
    assert abs(paper.width() / paper.height() - 100 / 150) < 0.01
    assert paper.height() > 450
    assert paper.bottom() <= look.turns.y()


def test_it_is_shown_dot_for_dot_as_its_pdf_is(look: PaperLook, qtbot: QtBot) -> None:
    image, paper = _made(qtbot, look), look.paper()
    dots = look.devicePixelRatioF()
    assert image == picture(PAPER, 0, None, paper.width() * dots / 100)
    shown = look.grab().toImage()
    left, top = round(paper.left() * dots), round(paper.top() * dots)
    for x in range(4, image.width() - 4, 7):
        for y in range(4, image.height() - 4, 7):
            assert shown.pixelColor(left + x, top + y) == image.pixelColor(x, y)


def test_a_picture_at_twice_the_dots_is_twice_as_large() -> None:
    one, two = (picture(PAPER, 0, None, dots) for dots in (4.0, 8.0))
    assert (two.width(), two.height()) == (2 * one.width(), 2 * one.height())
    shades = {
        two.pixelColor(x, y).lightness() for x in range(0, 800, 3) for y in range(0, 1200, 3)
    }
    assert {0, 255} <= shades


def test_its_pages_are_turned_and_end(look: PaperLook, qtbot: QtBot) -> None:
    first = _made(qtbot, look)
    look.on.click()
    look.on.click()
    assert look.number == 1
    assert look.accessibleName() == "D26-0611-Y as it will print, 100 × 150 mm, page 2 of 2"
    _made(qtbot, look)
    qtbot.waitUntil(lambda: look.image() is not first)
    look.turn(-1)
    look.turn(-1)
    assert look.number == 0


def test_one_look_has_nothing_to_turn(look: PaperLook) -> None:
    look.show_paper(replace(PAPER, count=1, notes=(phrase("The front has no code."),)))
    assert not look.turns.isVisible()
    assert look.accessibleName() == (
        "D26-0611-Y as it will print, 100 × 150 mm. The front has no code."
    )


def test_what_is_said_instead_of_a_paper(look: PaperLook) -> None:
    look.show_progress(25, 4000)
    assert look.words() == "It is drawn: 25 of 4\u202f000"
    look.show_paper(Refusal(NO_READER, why="x"))
    assert look.words().startswith("Papers can be neither shown nor sent to a printer here")
    assert look.paper().isEmpty()
    look.show_paper(None)
    assert look.isHidden()
    assert look.accessibleName() == ""


def test_in_a_low_window_nothing_is_drawn_that_cannot_be_made_out(look: PaperLook) -> None:
    look.show_paper(replace(PAPER, count=1))
    look.resize(500, 60)
    image = look.grab().toImage()
    assert image.pixelColor(250, 30) == image.pixelColor(5, 5)


def test_a_page_too_small_to_be_read_is_read_in_large_piece_by_piece(
    look: PaperLook, qtbot: QtBot
) -> None:
    look.show_paper(PAGES)
    look.resize(420, 400)
    whole = look.paper()
    assert look.large.isVisible()
    look.large.click()
    assert look.paper().width() > 1.5 * whole.width()
    assert look.paper().bottom() <= look.turns.y()
    image = _made(qtbot, look)
    seen = look.paper().height() / look.paper().width() * 210
    part = Box(0, 0, 210, seen)
    assert image.size() == picture(PAGES, 0, part, image.width() / 210).size()
    steps = 0
    while look.number == 0:
        look.on.click()
        steps += 1
    assert steps == 2, "the rest of the page comes before the next one"
    look.back.click()
    assert look.number == 0
    look.large.click()
    assert look.paper() == whole


def test_pictures_are_made_beside_the_window(
    look: PaperLook, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    where: list[bool] = []
    once = raster.seen

    def watched(pdf: bytes, page: int, dots_a_mm: float, part: Box | None) -> Dots:
        where.append(current_thread() is main_thread())
        return once(pdf, page, dots_a_mm, part)

    monkeypatch.setattr(raster, "seen", watched)
    look.turn(1)
    look.grab()
    qtbot.waitUntil(lambda: bool(where) and look.jobs is not None and look.jobs.is_idle())
    assert not any(where)
