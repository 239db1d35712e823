"""The dock worked by keys and scanner alone, on a real house."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dock import DockDay, dock_day
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def _yard(rig: Rig, name: str, colonies: int = 40) -> str:
    return rig.told(Register("yard", {"name": name, "colonies": colonies})).given[0]


def _day(rig: Rig) -> DockDay:
    return rig.house.ask(lambda view: dock_day(view, rig.now_ms))


def _fill(rig: Rig, **texts: str) -> None:
    """Type into fields by name, in the order given, going on with Tab."""
    for name, text in texts.items():
        rig.dock.form.form.take_focus(rig.dock.form.field(name))
        rig.type(text, enter=False)
        rig.keys("Tab")


def _receive(rig: Rig, yard: str, supers: str = "36", gross: str = "") -> None:
    _fill(rig, yard=yard, supers=supers, gross=gross)
    rig.dock.form.receive.click()
    rig.settle()


def _says(rig: Rig) -> str:
    return rig.dock.form.slot.sentence()


def test_two_pallets_are_received_by_keys_alone(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    _yard(rig, "Long Field")
    rig.keys("Ctrl+2")
    assert rig.focused().startswith("Yard")
    rig.type("Mill Lane")
    rig.type("")  # nothing on the sheet
    rig.type("")  # pulled today
    rig.type("North truck")
    rig.type("36")
    rig.type("")  # medium boxes
    rig.type("812,5")
    rig.type("")  # sealed
    rig.type("17.2")
    assert rig.toast().lead == "G26-0001-3 received: 36 supers, ≈ 582 kg of honey."
    assert rig.focused().startswith("Yard")
    rig.type("Long Field")
    rig.type("40")
    assert rig.focused() == "Supers", "day, crew and box are passed over: they repeat"
    rig.type("38")
    assert rig.focused() == "Gross, kg"
    rig.type("")
    rig.type("")
    rig.type("")
    assert rig.toast().lead.startswith("G26-0002-1 received: 38 supers")
    day = _day(rig)
    assert [(row.yard, row.supers, row.pallet) for row in day.arrivals] == [
        ("Long Field", 38, "G26-0002-1"),
        ("Mill Lane", 36, "G26-0001-3"),
    ]
    assert day.last is not None
    lines = day.last["lines"]
    assert isinstance(lines, list | tuple)
    assert [line["crew"] for line in lines] == ["North truck"], "the crew repeats"
    assert day.arrivals[1].moisture == 1720
    assert _says(rig).startswith("The tag G26-0002-1 is in ")
    assert (rig.folder / "papers" / "G26-0002-1.pdf").read_bytes().startswith(b"%PDF")
    assert rig.dock.table.model.rowCount() == 2
    assert rig.dock.arrivals.heading.text() == "74 of 76 supers of North truck are in"
    assert "20.7 kg a colony" not in _says(rig)


def test_control_p_opens_the_tag_and_before_there_is_one_says_so(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    rig.keys("Ctrl+P")
    assert _says(rig) == "Receive a pallet first: its tag is printed then."
    _receive(rig, "Mill Lane")
    rig.keys("Ctrl+P")
    assert rig.opened == [rig.folder / "papers" / "G26-0001-3.pdf"]


def test_a_receipt_is_printed_right_after_receiving_by_keys(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    _receive(rig, "Mill Lane")
    button = rig.dock.receipt
    button.setFocus()
    assert button.hasFocus()
    rig.bot.keyClick(button, Qt.Key.Key_Return)
    rig.settle()
    assert (rig.folder / "papers" / "Dock receipt G26-0001-3.pdf").exists()
    assert _says(rig).startswith("Dock receipt is in ")
    others = [one for one in button.parentWidget().findChildren(Button) if one is not button]
    assert others, "as everywhere, what prints stands before what only opens"
    assert all(button.x() < one.x() for one in others if one.isVisible())


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({}, "yard", "Name the yard and the number of supers first."),
        ({"supers": "3"}, "yard", "Name the yard and the number of supers first."),
        (
            {"yard": "Mill Lane"},
            "supers",
            "Nothing is typed here: type a number of supers, such as 24.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12,5"},
            "supers",
            "12,5 is not a whole number: type a number of supers, such as 24.",
        ),
        (
            {"yard": "Mill Road", "supers": "12"},
            "yard",
            "There is no yard called Mill Road. Choose one, such as Mill Lane, or register it "
            "first.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12", "gross": "1.234"},
            "gross",
            "1.234 can mean 1 kg 234 g or 1234 kg: type 1.2340 or 1234.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12", "gross": "80"},
            "gross",
            "Gross 80.0 kg is not above the tare of 87.0 kg (pallet, lid and 12 empty supers). "
            "Weigh again, or check the box type.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12", "pulled": "25 Jul 2026"},
            "pulled",
            "Mill Lane cannot have been pulled on 2026-07-25, after it came in on 2026-07-24. "
            "Correct one of the two days.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12", "pulled": "4/7/2026"},
            "pulled",
            "4/7/2026 can mean 4 Jul 2026 or 7 Apr 2026: type it like 4 Jul 2026.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12", "box": "jumbo"},
            "box",
            "There is no box type called jumbo. Choose one, such as deep, medium or shallow, or "
            "register it first.",
        ),
        (
            {"yard": "Mill Lane", "supers": "12", "moisture": "33"},
            "moisture",
            "33.0 % is not a honey's moisture: refractometers read 13 to 25 %. Read it again.",
        ),
    ],
)
def test_a_refusal_stands_at_the_top_and_nothing_is_lost(
    rig: Rig, typed: dict[str, str], field: str, sentence: str
) -> None:
    _yard(rig, "Mill Lane")
    before = rig.head()
    for name, text in typed.items():
        one = rig.dock.form.field(name)
        rig.dock.form.form.take_focus(one)
        rig.type(text, enter=False)
        rig.keys("Tab")
    rig.dock.form.receive.click()
    rig.settle()
    shown = rig.dock.form.slot.shown()
    assert shown is not None
    assert (shown.mark, shown.lead, shown.text) == (Mark.REFUSED, "Not recorded.", sentence)
    assert rig.head() == before
    refused = rig.dock.form.field(field)
    assert refused.isAncestorOf(rig.window.focusWidget())
    for name, text in typed.items():
        assert rig.dock.form.field(name).text() == text


def test_a_pull_sheet_begins_a_receipt_and_twice_is_once(rig: Rig) -> None:
    code = _yard(rig, "Mill Lane")
    rig.keys("Ctrl+2")
    rig.scan(code)
    assert rig.dock.form.yard.text() == "Mill Lane"
    assert rig.focused() == "Supers"
    rig.type("36", enter=False)
    rig.scan(code)
    assert rig.dock.form.supers.text() == "36"
    assert rig.dock.presenter.typed.kept == ()
    assert rig.dock.form.yard.text() == "Mill Lane"


def test_another_pull_sheet_is_a_second_yard_on_the_pallet(rig: Rig) -> None:
    first, second = _yard(rig, "Mill Lane"), _yard(rig, "Long Field")
    rig.keys("Ctrl+2")
    rig.scan(first)
    rig.type("20", enter=False)
    rig.scan(second)
    assert rig.dock.form.yard.label.text() == "On it: Mill Lane 20. Next yard"
    assert rig.dock.form.yard.text() == "Long Field"
    rig.type("16", enter=False)
    rig.dock.form.receive.click()
    rig.settle()
    arrivals = _day(rig).arrivals
    assert {(row.yard, row.supers, row.pallet) for row in arrivals} == {
        ("Mill Lane", 20, "G26-0001-3"),
        ("Long Field", 16, "G26-0001-3"),
    }
    assert len({row.entry for row in arrivals}) == 1


def test_a_second_yard_by_keys_alone(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    _yard(rig, "Long Field")
    _fill(rig, yard="Mill Lane", supers="20")
    rig.keys("Ctrl+N")
    assert rig.focused().startswith("On it: Mill Lane 20")
    _fill(rig, yard="Long Field", supers="16", gross="640")
    rig.dock.form.receive.click()
    rig.settle()
    assert sum(row.supers for row in _day(rig).arrivals) == 36
    assert rig.head()[0] == 4 + 2 + 2, "the pallet, and that its tag was printed"


def test_a_yard_is_kept_for_the_pallet_only_if_the_ledger_would_take_it(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    rig.keys("Ctrl+2", "Ctrl+N")
    assert _says(rig) == "Not recorded. Name the yard and the number of supers first."
    _fill(rig, yard="Mill Lane", supers="0")
    rig.keys("Ctrl+N")
    assert "Count the supers of Mill Lane: a pull has at least one." in _says(rig)
    assert rig.dock.presenter.typed.kept == ()


def test_a_pull_sheet_scanned_over_a_weighed_pallet_is_asked_about(rig: Rig) -> None:
    first, second = _yard(rig, "Mill Lane"), _yard(rig, "Long Field")
    rig.keys("Ctrl+2")
    rig.scan(first)
    _fill(rig, supers="20", gross="700")
    rig.scan(second)
    assert _says(rig).startswith("Not recorded. This pallet has its weight already: record it")
    assert rig.dock.form.yard.text() == "Mill Lane"
    assert _day(rig).arrivals == ()


def test_what_the_ledger_would_say_is_said_while_typing(rig: Rig) -> None:
    code = _yard(rig, "Mill Lane")
    _fill(rig, yard="Mill Lane", supers="36")
    assert _says(rig).startswith("First pull of this yard this season.")
    _fill(rig, sheet="40")
    assert _says(rig).startswith("Mill Lane: 36 supers came, the pull sheet says 40. 4 missing")
    _fill(rig, sheet="36", moisture="18.4")
    assert _says(rig).startswith("Above 18 %: dry first, wet honey ferments.")
    rig.told(PutOnHold(f"{code}", "treatment record", "2026-07-01"))
    _fill(rig, moisture="17.0")
    assert _says(rig).startswith("On hold. Mill Lane")
    _fill(rig, gross="100")
    messages = rig.dock.form.slot.sentence()
    assert "On hold." in messages
    assert "is not above the tare" in rig.dock.form.slot.toolTip()


def test_a_form_survives_a_change_of_station_and_a_new_start(
    rig: Rig, qtbot: QtBot, tmp_path: Path
) -> None:
    _yard(rig, "Mill Lane")
    _fill(rig, yard="Mill Lane", supers="36", gross="812")
    rig.keys("Ctrl+5", "Ctrl+2")
    assert rig.dock.form.supers.text() == "36"
    rig.window.close()
    again = Rig(qtbot, tmp_path)
    assert again.dock.form.yard.text() == "Mill Lane"
    assert again.dock.form.supers.text() == "36"
    assert again.dock.form.gross.text() == "812"
    again.dock.form.receive.click()
    again.settle()
    assert again.toast().lead.startswith("G26-0001-3 received: 36 supers")
    assert list((tmp_path / "drafts").glob("*.json")) == []
    again.close()


def test_what_was_recorded_before_the_program_died_is_recorded_once(
    rig: Rig, qtbot: QtBot, tmp_path: Path
) -> None:
    _yard(rig, "Mill Lane")
    _fill(rig, yard="Mill Lane", supers="36")
    draft = next((tmp_path / "drafts").glob("dock-*.json"))
    kept = draft.read_bytes()
    rig.dock.form.receive.click()
    rig.settle()
    rig.window.close()
    draft.write_bytes(kept)  # as if the draft had not been thrown away in time
    head = rig.head()
    again = Rig(qtbot, tmp_path)
    assert again.dock.form.supers.text() == "36"
    again.dock.form.receive.click()
    again.settle()
    assert again.toast().lead == "G26-0001-3 was received already, as entry 6: it is kept once."
    assert again.head() == head
    again.close()


def test_the_last_pallet_can_be_repeated_and_the_form_cleared(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    _receive(rig, "Mill Lane", "36")
    assert rig.dock.form.yard.text() == ""
    rig.keys("Ctrl+R")
    assert rig.dock.form.yard.text() == "Mill Lane"
    assert rig.dock.form.supers.text() == "36"
    assert rig.dock.form.gross.text() == ""
    rig.dock.form.yard.set_refused(True)
    rig.keys("Ctrl+Backspace")
    assert rig.dock.form.yard.text() == ""
    assert not rig.dock.form.yard.box.refused
    assert rig.focused().startswith("Yard")


def test_a_row_opens_its_card_and_its_trace(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    _receive(rig, "Mill Lane")
    rig.dock.table.select(rig.dock.table.model.key_at(0))
    rig.keys("Ctrl+I")
    assert rig.window.shell.is_aside_shown()
    assert rig.window.card.presenter.code == "S26-0001-G"
    rig.keys("Esc", "Ctrl+2", "Ctrl+T")
    assert rig.window.shell.open_key() == "trace"


def test_a_pallet_of_yesterday_is_not_of_today(rig: Rig) -> None:
    _yard(rig, "Mill Lane")
    _receive(rig, "Mill Lane")
    rig.now_ms += 24 * 60 * MINUTE_MS
    rig.desk.refresh.broadcast({"ledger"})
    rig.settle()
    assert rig.dock.table.model.rowCount() == 0
    assert rig.dock.arrivals.heading.text() == "Arrivals today"


def test_a_house_without_a_yard_is_told_how_to_get_one(rig: Rig) -> None:
    rig.keys("Ctrl+2")
    assert _says(rig) == "No yard yet. Name the house and a first yard: it takes a minute."
    rig.keys("Return")
    assert rig.window.shell.open_key() == "setup"


def test_in_a_low_window_the_season_s_figures_leave_their_room_to_the_rows(rig: Rig) -> None:
    yard = _yard(rig, "Mill Lane")
    rig.keys("Ctrl+2")
    _receive(rig, yard, "36", "812,5")
    assert rig.dock.figures.isVisible()
    rig.window.resize(640, 400)
    rig.settle()
    rig.dock.spread.show_part(1)
    rig.settle()
    assert not rig.dock.figures.isVisible()
    rig.told(Receive((Line("Mill Lane", 24),), gross_g=500_000, tare_g=0))
    rig.settle()
    assert len(rig.dock.table.model.rows()) == 2
    assert not rig.dock.figures.isVisible(), "an answer brings them no room"
    rig.window.resize(1280, 800)
    rig.settle()
    assert rig.dock.figures.isVisible()
