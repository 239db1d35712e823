"""What people come for, by real keys and scans, from whichever station is open."""

from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dock import dock_day
from honeyledger.services.setup import new_house
from tests.desktop.floor_rig import Floor
from tests.desktop.rig import FAST_MS, SLOW_MS, Rig

STATIONS = (
    *("yards", "dock", "hot_room", "extraction", "drums", "bottling", "dispatch"),
    *("trace", "season", "setup", "keys", "entries"),
)
# One with a run open, one of the office, one with a form of its own, for the plain run.
SOME = ("extraction", "trace", "setup")
STARTS = [SOME, pytest.param(STATIONS, marks=pytest.mark.full)]
MOST_MORE_KEYS = 5  # of a repeated receipt, besides the characters that differ


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


class Counted:
    """Hands whose key presses are counted: characters, and all other keys."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.characters = self.others = 0

    def type(self, text: str) -> None:
        self.rig.type(text, enter=False)
        self.characters += len(text)

    def key(self, name: str) -> None:
        self.rig.keys(name)
        self.others += 1


@pytest.mark.parametrize("stations", STARTS, ids=("some", "all"))
def test_a_truck_of_pallets_is_received_from_any_station(
    rig: Rig, stations: tuple[str, ...]
) -> None:
    """One key to the dock; then sheets are scanned and numbers typed, and no mouse."""
    yards = [rig.told(Register("yard", {"name": name})).given[0] for name in ("Creek", "Hill")]
    came: dict[str, int] = {}
    for station in stations:
        rig.window.open_station(station)
        rig.settle()
        rig.keys("Ctrl+2")
        for yard, supers in ((yards[0], "36"), (yards[1], "30"), (yards[1], "28")):
            rig.scan(yard)
            rig.type(supers)
            # The truck is asked for with the first pallet, and is the next one's too.
            for text in ("702", "", "") if came else ("", "812,5", "", ""):
                rig.type(text)
            tag, _, said = rig.toast().lead.partition(" ")
            assert tag not in came, (station, rig.dock.form.slot.sentence())
            assert said.startswith(f"received: {supers} supers")
            came[tag] = int(supers)
    assert next(iter(came)) == "G26-0001-3"
    day = rig.house.ask(lambda view: dock_day(view, rig.now_ms))
    assert [row.supers for row in day.arrivals] == [*came.values()][::-1]
    assert [row.yard for row in day.arrivals] == ["Hill", "Hill", "Creek"] * len(stations)
    tags = {file.stem for file in (rig.folder / "papers").glob("G*.pdf")}
    assert tags == set(came), "each pallet has its tag"


def test_a_repeated_receipt_takes_what_differs_and_at_most_five_keys(rig: Rig) -> None:
    """The same yard again, another count and weight: all else repeats."""
    rig.told(Register("yard", {"name": "Creek"}))
    rig.keys("Ctrl+2")
    for text in ("creek", "40", "", "North truck", "36", "", "812,5", "", ""):
        rig.type(text)
    hands = Counted(rig)
    hands.key("Ctrl+R")
    assert rig.focused() == "Supers", "the count is what differs"
    hands.type("38")
    hands.key("Return")
    hands.type("845")
    hands.key("Return")
    hands.key("Return")
    hands.key("Return")
    assert rig.toast().lead.startswith("G26-0002-1 received: 38 supers"), "recorded"
    assert hands.others <= MOST_MORE_KEYS
    assert hands.characters == len("38") + len("845")


@pytest.mark.parametrize("stations", STARTS, ids=("some", "all"))
def test_a_run_is_closed_out_from_any_station(
    qtbot: QtBot, tmp_path: Path, stations: tuple[str, ...]
) -> None:
    rig = Rig(qtbot, tmp_path)
    floor = Floor(rig)
    for number, station in enumerate(stations):
        facts: dict[str, str | int] = {"name": f"Drum {20 + number}", "tare_g": 18_000}
        drum = rig.told(Register("drum", facts)).given[0]
        tag = floor.pallet(36)
        rig.window.open_station(station)
        rig.settle()
        rig.keys("Ctrl+4")
        run = floor.open_run()
        rig.scan(tag)
        floor.wait(40)
        rig.scan(drum)
        rig.type("310,5")
        rig.type("")
        # By Tab to the button, and Enter.
        for _ in range(60):
            if rig.focused() == "Close this run…":
                break
            rig.keys("Tab")
        rig.keys("Return")
        for text in ("40", "", ""):
            rig.type(text)
        ties = floor.view.closing.ties.model.rowCount()
        assert ties == 1, "what it ties together, before signing"
        assert rig.focused() == "Sign and close run", station
        rig.keys("Return")
        assert rig.toast().lead == f"Run {run} is closed."
        assert floor.sheet(run).run.closed_ms == rig.now_ms
    rig.close()


# The scanner.

PREFIXES = ("", "]C0", "]C1", "]Q1", "]Q3", "]d1", "]d2", "]A0", "]E0", "]I0")


def _burst(rig: Rig, text: str, end: Qt.Key) -> None:
    """A hand scanner's keys, with the ending key it is set to."""
    rig.key_ms += SLOW_MS
    for letter in text:
        rig.key_ms += FAST_MS
        QTest.keyClicks(rig._target(), letter)
    rig.key_ms += FAST_MS
    QTest.keyClick(rig._target(), end)
    rig.settle()


ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab)


def test_a_pull_sheet_begins_a_receipt_however_the_scanner_is_set(rig: Rig) -> None:
    yard = rig.told(Register("yard", {"name": "Creek"})).given[0]
    rig.keys("Ctrl+2")
    head = rig.head()
    ways = (yard, yard.lower(), yard.replace("-", ""), yard.swapcase())
    for prefix, end, text in product(PREFIXES, ENDS, ways):
        _burst(rig, prefix + text, end)
        assert rig.dock.presenter.typed.line.yard == yard, (end, prefix + text)
        assert rig.focused() == "Supers", "the keyboard waits for the count, and Tab was eaten"
        assert rig.dock.form.supers.text() == ""
        rig.keys("Ctrl+Backspace")
    assert rig.head() == head, "nothing is recorded by a scan's end"


def test_a_scan_is_taken_whole_with_a_list_a_menu_or_a_table_in_hand(rig: Rig) -> None:
    """What pops up takes keys first: none of a scan's reach it; its Enter chooses nothing."""
    creek = rig.told(Register("yard", {"name": "Creek"})).given[0]
    hill = rig.told(Register("yard", {"name": "Hill"})).given[0]
    badge = rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
    rig.told(Receive((Line("Creek", 12),)))
    rig.keys("Ctrl+2")
    dock = rig.dock
    rig.keys("Down")  # the list of yards is open, Creek under the keyboard
    rig.scan(hill)
    assert dock.presenter.typed.line.yard == hill
    rig.keys("Ctrl+Backspace")
    dock.form.form.take_focus(dock.form.box)
    rig.keys("Down")
    rig.scan(creek)
    assert dock.presenter.typed.line.yard == creek
    assert dock.form.box.text() == "medium"
    rig.keys("Ctrl+Backspace")
    dock.table.take_focus()
    rig.scan(hill)
    assert dock.presenter.typed.line.yard == hill
    head = rig.head()
    rig.keys("Ctrl+L")
    menu = QApplication.activePopupWidget()
    assert menu is not None
    rig.scan(badge)
    assert rig.desk.operator == badge
    if QApplication.activePopupWidget() is not None:
        rig.keys("Esc")
    assert rig.head() == head


def test_a_house_s_own_prefix_and_whole_addresses(qtbot: QtBot, tmp_path: Path) -> None:
    made = Rig(qtbot, tmp_path, begun=False)
    made.house.record_all(new_house("Test House", "UTC", prefix="KB"))
    yard = made.told(Register("yard", {"name": "Creek"})).given[0]
    made.keys("Ctrl+2")
    assert yard.startswith("KB-Y26-")
    for text in (
        *(yard, yard.lower(), yard.replace("-", ""), f"]C0{yard}"),
        *(f"HTTPS://KB.EXAMPLE/Y/{yard}", f"https://kb.example/y/{yard.lower()}?x=1"),
    ):
        for end in (Qt.Key.Key_Return, Qt.Key.Key_Tab):
            _burst(made, text, end)
            assert made.dock.presenter.typed.line.yard == yard, text
            made.keys("Ctrl+Backspace")
    made.close()


def test_double_scans_add_nothing_on_the_floor_the_dock_and_the_note(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = Rig(qtbot, tmp_path)
    floor = Floor(rig)
    floor.open_run()
    rig.scan(floor.tag)
    head = rig.head()
    for _ in range(3):
        rig.scan(floor.tag)
    assert rig.head() == head
    rig.keys("Ctrl+2")
    for _ in range(2):
        rig.scan(floor.yard)
    assert (rig.dock.presenter.typed.line.yard, rig.dock.presenter.typed.kept) == (floor.yard, ())
    rig.close()
