"""A jar comes back: from any station, by keys and a scanner alone, to a hold and who has it.

Every key is a real key event and every scan a burst of them.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import cast

import pypdfium2
import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.exposure.view import ExposureView
from honeyledger.ledger.holds import open_holds
from honeyledger.services.complaints import complaint_rows
from honeyledger.services.holding import hold_rows
from tests.desktop.recall_rig import Shop
from tests.desktop.rig import Rig

PLACES = ("yards", "dock", "hot_room", "extraction", "drums", "bottling", "dispatch")
TOOLS = ("trace", "season", "setup")


@pytest.fixture
def shop(qtbot: QtBot, tmp_path: Path) -> Iterator[Shop]:
    rig = Rig(qtbot, tmp_path)
    yield Shop(rig).fill()
    rig.close()


def _words(paper: Path) -> str:
    document = pypdfium2.PdfDocument(paper)
    try:
        return " ".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()


def test_a_jar_is_traced_from_any_station(shop: Shop) -> None:
    rig = shop.rig
    for number in (1, 2, 3, 4, 5, 6, 7, 8, 9, 0):
        # Another code than the jar's is in hand before.
        rig.keys("Ctrl+8")
        rig.scan(shop.yards[0])
        rig.keys(f"Ctrl+{number}", "Ctrl+8")
        rig.scan(shop.jar)
        assert shop.trace.presenter.code == shop.jar, number
        assert shop.trace.answer.sentence.text().startswith("2 yards. "), number
        names = {row.name for row in shop.trace.yards.model.rows()}
        assert names == {"Long Field", "Mill Lane"}, number
        assert "accounted for" in shop.trace.slot.sentence(), number


def test_a_jar_that_was_scanned_is_traced_by_key_where_its_card_opens(shop: Shop) -> None:
    rig = shop.rig
    opened = set()
    for number in (1, 2, 3, 4, 5, 6, 7, 9, 0):
        rig.keys("Ctrl+8")
        rig.scan(shop.yards[0])
        rig.keys(f"Ctrl+{number}")
        rig.scan(shop.jar)
        if not rig.window.shell.is_aside_shown():
            continue  # The place made use of the jar itself.
        opened.add(number)
        rig.keys("Ctrl+T")
        assert rig.window.shell.open_key() == "trace", number
        assert shop.trace.presenter.code in (shop.jar, shop.lot), number
        rig.keys("Esc")
    assert opened >= {1, 2, 3, 4, 5, 9, 0}


def test_from_a_jars_code_to_a_hold_and_the_list_of_who_has_it(shop: Shop) -> None:
    rig, presses = shop.rig, 0

    def press(*keys: str) -> None:
        nonlocal presses
        rig.keys(*keys)
        presses += len(keys)

    press("Ctrl+2", "Ctrl+8")
    rig.scan(shop.jar)
    press("Ctrl+Shift+A")
    assert shop.is_on_recall()
    said = shop.recall.answer.accessibleName()
    assert f"What is affected if {shop.lot} is called back. " in said
    assert "2 customers have 120 jars, 60.0 kg in all." in said
    assert "none of it on hold. 100.0 % accounted for." in said
    assert rig.focused().startswith("Reason")
    rig.type("glass or metal", enter=False)
    press("Return", "Return")
    assert rig.toast().lead.startswith(f"{shop.lot} is on hold, and all that came of it")
    (hold,) = rig.house.ask(hold_rows)
    assert (hold.target, hold.reason) == (shop.lot, "glass or metal")
    assert shop.lot in hold.on_hand
    assert "all of it on hold" in shop.recall.answer.sentence.text()
    head = rig.head()[0]
    press("Ctrl+P")
    (paper,) = rig.opened
    assert paper.name == f"who-has-{shop.lot}-{head}.pdf"
    assert rig.head()[0] == head + 1, "that it was printed is on record"
    words = _words(paper)
    for name in ("Corner Shop", "Mill Bakery", "agree every notice with your authority"):
        assert name in words
    assert words.count("N26-") == 2, "each with the note it went by"
    assert presses + 1 <= 12, "keys besides the reason, and one scan"


def test_all_of_it_is_held_in_one_entry(shop: Shop) -> None:
    rig = shop.rig
    before = rig.head()[0]
    rig.keys("Ctrl+8")
    rig.scan(shop.jar)
    rig.keys("Ctrl+Shift+A")
    rig.type("lab result")
    rig.keys("Return")
    assert rig.head()[0] == before + 1
    assert len(rig.house.ask(lambda view: list(open_holds(view)))) == 1


def test_a_complaint_is_taken_in_with_its_trace_and_answered(shop: Shop) -> None:
    rig = shop.rig
    rig.keys("Ctrl+8")
    rig.scan(shop.jar)
    rig.keys("Ctrl+Shift+O")
    assert rig.focused().startswith("Who says it")
    rig.type("Ms Orla")
    rig.type("a splinter of glass")
    rig.type("")
    rig.type("")
    rig.keys("Return")
    (row,) = rig.house.ask(complaint_rows)
    assert (row.jar, row.what, row.who, row.answer) == (
        shop.jar,
        "a splinter of glass",
        "Ms Orla",
        "",
    )
    assert rig.toast().lead.startswith(f"The complaint about {shop.jar} is kept")
    (line,) = shop.recall.tables["complaints"].model.rows()
    assert "Long Field" in line.sources
    shop.recall.form.choose("answer")
    rig.settle()
    assert shop.recall.stack.currentWidget() is shop.recall.tables["complaints"]
    rig.type(str(row.number))
    rig.type("taken back, lot held")
    rig.keys("Return")
    (row,) = rig.house.ask(complaint_rows)
    assert row.answer == "taken back, lot held"
    assert row.what == "a splinter of glass", "what was said stays as it was said"


def test_a_scan_on_the_page_takes_another_code_in_hand(shop: Shop) -> None:
    rig = shop.rig
    rig.keys("Ctrl+8", "Ctrl+Shift+A")
    assert shop.recall.presenter.page is not None
    assert shop.recall.presenter.page.scope is None
    rig.keys("Ctrl+P")
    assert "Scan a code first" in shop.recall.slot.sentence()
    rig.scan(shop.jar)
    assert shop.recall.presenter.code == shop.jar
    rig.scan(shop.yards[0])
    assert "if Long Field is called back" in shop.recall.answer.accessibleName()
    rig.scan("D26-9999-X")
    rig.settle(shop.recall.presenter.asking.pause)
    assert "D26-9999-X" in shop.recall.answer.accessibleName()


def test_what_is_half_typed_is_there_again_and_the_trace_too(shop: Shop) -> None:
    rig = shop.rig
    rig.keys("Ctrl+8")
    rig.scan(shop.jar)
    rig.keys("Ctrl+Shift+O")
    rig.type("")
    rig.type("sour", enter=False)
    rig.keys("Ctrl+2", "Ctrl+8")
    assert not shop.is_on_recall()
    assert shop.trace.presenter.code == shop.jar
    rig.keys("Ctrl+Shift+O")
    assert shop.recall.presenter.asking.now().text("what") == "sour"
    assert shop.recall.presenter.asking.now().text("code") == shop.jar


def test_a_yard_may_be_typed_by_its_name(shop: Shop) -> None:
    rig = shop.rig
    rig.keys("Ctrl+8", "Ctrl+Shift+A")
    rig.type("mill lane")
    rig.settle(shop.recall.presenter.asking.pause)
    assert "if Mill Lane is called back" in shop.recall.answer.accessibleName()


def test_a_complaint_begins_on_the_card_of_its_jar(shop: Shop) -> None:
    rig = shop.rig
    rig.window.card.show_code(shop.jar)
    rig.settle()
    button = rig.window.card.widget.complaint
    assert button is not None
    button.click()
    rig.settle()
    assert rig.window.shell.open_key() == "trace"
    presenter = shop.trace.recall().presenter
    assert presenter.asking.kind == "complaint"
    assert presenter.asking.now().text("code") == shop.jar
    assert not rig.window.shell.is_aside_shown()


def test_the_exposure_of_what_is_traced_is_a_key_away(shop: Shop) -> None:
    rig = shop.rig
    rig.keys("Ctrl+8")
    rig.scan(shop.jar)
    rig.keys("Ctrl+Shift+X")
    rig.settle()
    assert rig.window.shell.open_key() == "exposure"
    exposure = cast(ExposureView, rig.window.stations["exposure"])
    assert exposure.presenter.code == shop.jar
    rig.keys("Ctrl+8", "Ctrl+Shift+A", "Ctrl+Shift+X")
    assert rig.window.shell.open_key() == "trace", "beside a form it is the trace's own key"
