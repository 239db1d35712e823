"""F1 from any place opens its page; a word is found; Esc goes back: by keys alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray, QUrl
from PySide6.QtGui import QImage, QPixmap, QTextDocument
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop import style, tokens
from honeyledger.desktop.stations.guide.view import GuideView
from honeyledger.desktop.stations.setup.view import SetupView
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path, first=SOON)
    yield made
    made.close()


def _guide(rig: Rig) -> GuideView:
    found = rig.window.stations["guide"]
    assert isinstance(found, GuideView)
    return found


def _title(rig: Rig) -> str:
    page = _guide(rig).browser.page
    assert page is not None
    return page.title


@pytest.mark.parametrize(
    ("keys", "place", "title"),
    [("Ctrl+1", "yards", "Yards"), ("Ctrl+8", "trace", "Trace"), ("Ctrl+E", "entries", "Entries")],
)
def test_help_is_about_the_place_and_esc_goes_back_there(
    rig: Rig, keys: str, place: str, title: str
) -> None:
    rig.keys(keys, "F1")
    assert rig.window.shell.open_key() == "guide"
    assert _title(rig) == title
    assert rig.focused() == title
    rig.keys("Escape")
    assert rig.window.shell.open_key() == place


def test_what_is_half_typed_is_there_when_one_comes_back(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    rig.type("Ann R", enter=False)
    rig.keys("F1", "Escape")
    setup = rig.window.stations["setup"]
    assert isinstance(setup, SetupView)
    assert setup.by_kind["operator"].values()["name"] == "Ann R"


def test_a_word_is_found_and_marked(rig: Rig) -> None:
    rig.keys("Ctrl+2", "F1", "Ctrl+F")
    assert rig.focused() == "Find in the guide"
    rig.type("infants", enter=False)
    view = _guide(rig)
    rows = [view.table.model.cell(row, 0) for row in range(view.table.model.rowCount())]
    assert {cell.text for cell in rows} == {"Bottling", "Cautions"}
    assert all("infants" in cell.note.casefold() for cell in rows)
    rig.keys("Return")
    assert _title(rig) in ("Bottling", "Cautions")
    marked = view.browser.extraSelections()
    assert {one.cursor.selectedText().casefold() for one in marked} == {"infants"}
    rig.keys("F1")
    assert rig.focused() == "Find in the guide"


def test_the_list_and_the_links_open_pages(rig: Rig) -> None:
    rig.keys("Ctrl+2", "F1")
    view = _guide(rig)
    view.table.take_focus()
    view.table.select("cautions")
    rig.keys("Return")
    assert _title(rig) == "Cautions"
    link = next(
        fragment.charFormat().anchorHref()
        for fragment in _fragments(view)
        if fragment.charFormat().isAnchor()
    )
    assert view.show_page(link)
    assert _title(rig) == "Yards"
    assert not view.show_page("nowhere")


def _fragments(view: GuideView) -> list[object]:
    found = []
    block = view.browser.document().begin()
    while block.isValid():
        found += [piece.fragment() for piece in block]
        block = block.next()
    return found


def test_the_page_keeps_its_place_when_the_light_changes(rig: Rig, light: QApplication) -> None:
    rig.keys("Ctrl+2", "F1", "PgDown")
    bar = _guide(rig).browser.verticalScrollBar()
    before = bar.value()
    assert before > 0
    style.wear(light, tokens.DARK, moving=False)
    assert bar.value() == before
    _guide(rig).show_page("cautions")
    assert bar.value() == 0, "a page is read from its top"


def test_a_first_visit_without_a_place_begins_with_the_first_day(rig: Rig) -> None:
    rig.desk.came_from = "nowhere"
    view = _guide(rig)
    view.begin()
    assert _title(rig) == "The first day"
    view.to_keys.click()
    rig.settle()
    assert rig.window.shell.open_key() == "keys"


def test_pictures_are_found(rig: Rig) -> None:
    rig.keys("Ctrl+8", "F1")
    document = _guide(rig).browser.document()
    file = QUrl("../pictures/trace.png")
    picture = document.resource(QTextDocument.ResourceType.ImageResource.value, file)
    assert isinstance(picture, QImage | QPixmap | QByteArray | bytes)
    assert not isinstance(picture, QImage) or not picture.isNull()
