"""The page of what was recorded, worked by keys and scans: looked through, reversed, amended."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.entries.view import EntriesView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded, Said
from tests.desktop.rig import SOON, Rig, entries_of
from tests.support.houses import MINUTE_MS, START_MS


class Day:
    """Two yards, a pallet loaded, a drum filled; the page is open."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.yard = rig.told(Register("yard", {"name": "Creek"})).given[0]
        self.other = rig.told(Register("yard", {"name": "Hill"})).given[0]
        self.tank = rig.told(Register("vessel", {"name": "Tank 1"})).given[0]
        self.drum_7 = rig.told(Register("drum", {"name": "Drum 7"})).given[0]
        self.drum_8 = rig.told(Register("drum", {"name": "Drum 8"})).given[0]
        done = rig.told(Receive((Line(self.yard, 20),)))
        self.pull, self.received = done.codes[0], done.entries[0].id
        self.tag = next(code for code in done.given if code[0] == "G")
        self.loaded = rig.told(Load(self.tag, self.tank)).entries[0].id
        filled = rig.told(Fill(self.tank, Weight(net_g=200_000), container="Drum 7"))
        self.drum = next(code for code in filled.codes if code[0] == "D")
        self.filled = filled.entries[0].id
        rig.keys("Ctrl+E")
        rig.settle(self.view.presenter.pause)

    @property
    def view(self) -> EntriesView:
        return entries_of(self.rig)

    def listed(self) -> list[int]:
        """The numbers of the entries in the list."""
        return [row.entry for row in self.view.list.table.model.rows()]

    def chain(self) -> list[int]:
        """The numbers of the entries that would be reversed."""
        return [row.entry for row in self.view.undoing.table.model.rows()]

    def choose(self, entry: int) -> None:
        """Choose an entry of the list and bring its reversal about by key."""
        self.view.list.table.select(str(entry))
        self.view.list.take_focus()
        self.rig.keys("Ctrl+Shift+U")

    def last(self) -> Recorded:
        entry = self.rig.house.ask(lambda view: view.entries(last=1))[-1]
        return Recorded((entry,), ())


@pytest.fixture
def day(qtbot: QtBot, tmp_path: Path) -> Iterator[Day]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Day(rig)
    rig.close()


def test_the_newest_stand_at_the_top_as_sentences(day: Day) -> None:
    assert day.listed()[:3] == [day.filled, day.loaded, day.received]
    assert day.rig.focused() == "What was recorded"
    first = day.view.list.table.model.rows()[0]
    assert first.sentence == f"Filled: {day.drum}, 200.0 kg from Tank 1 in Drum 7."
    assert day.view.notes.sentences()[0] == first.sentence
    assert day.view.entry.heading.text() == f"Entry {day.filled}"


def test_what_is_recorded_elsewhere_arrives(day: Day) -> None:
    day.rig.told(Register("yard", {"name": "Moor"}))
    assert day.listed()[0] == day.filled + 1


def test_a_scan_lists_what_a_code_is_about(day: Day) -> None:
    day.rig.scan(day.drum.lower())
    day.rig.settle(day.view.presenter.pause)
    assert day.listed() == [day.filled]
    assert day.view.list.code.text() == day.drum
    day.rig.keys("Ctrl+Backspace")
    assert len(day.listed()) > 3


def test_station_and_kind_narrow_the_list(day: Day) -> None:
    day.rig.house.record(Register("yard", {"name": "Moor"}), Said(station="office"))
    day.rig.desk.refresh.broadcast({"ledger"})
    day.rig.settle()
    day.rig.keys("Ctrl+F")
    assert day.view.list.code.editor.hasFocus()
    day.view.list.station.take_focus()
    day.rig.type("office")
    day.rig.settle(day.view.presenter.pause)
    assert day.listed() == [day.filled + 1]
    day.rig.keys("Ctrl+Backspace")
    day.view.list.kind.take_focus()
    day.rig.type("Loaded")
    day.rig.settle(day.view.presenter.pause)
    assert day.listed() == [day.loaded]


def test_a_code_of_no_house_says_so_and_keeps_the_list(day: Day) -> None:
    before = day.listed()
    day.rig.keys("Ctrl+F")
    day.rig.type("D26-9999-9", enter=False)
    day.rig.settle(day.view.presenter.pause)
    assert day.rig.toast().mark is Mark.REFUSED
    assert day.view.list.code.box.refused
    assert day.listed() == before


def test_one_entry_is_reversed_with_a_reason_by_keys_alone(day: Day) -> None:
    day.choose(day.filled)
    assert day.chain() == [day.filled]
    assert day.rig.focused() == "Why: choose, or say it in a word or two"
    day.rig.keys("Return")
    assert "Give the reason" in day.view.undoing.slot.sentence()
    assert day.rig.head()[0] == day.filled
    day.rig.type("wrong tank")
    assert day.rig.toast().lead == f"Entry {day.filled} is reversed by entry {day.filled + 1}."
    assert day.last().entries[0].facts["said"] == {"entry": day.filled, "reason": "wrong tank"}
    assert day.rig.focused() == "What was recorded", "back in the list"


def test_a_chain_is_seen_first_and_reversed_in_one_step(day: Day) -> None:
    day.choose(day.received)
    assert day.chain() == [day.filled, day.loaded, day.received]
    assert day.view.undoing.slot.sentence().startswith("2 entries are built on it.")
    assert not day.view.undoing.reverse.isVisible()
    assert day.view.undoing.all.text() == "Reverse all 3"
    day.rig.type("never came")
    assert day.rig.toast().lead == (
        f"3 entries are reversed, by entries {day.filled + 1} to {day.filled + 3}."
    )
    assert day.rig.house.ask(lambda view: view.reversed_by(day.received)) == day.filled + 3


def test_what_grew_meanwhile_is_seen_again_before_it_is_reversed(day: Day) -> None:
    day.choose(day.loaded)
    assert day.chain() == [day.filled, day.loaded]
    # Another station goes on, and this one has not heard of it.
    day.rig.house.record(Fill(day.tank, Weight(net_g=10_000), container="Drum 8"))
    day.rig.type("never came")
    assert "has changed meanwhile" in day.view.undoing.slot.sentence()
    assert day.rig.head()[0] == day.filled + 1
    day.rig.desk.refresh.broadcast({"ledger"})
    day.rig.settle()
    assert day.chain() == [day.filled + 1, day.filled, day.loaded]


def test_where_honey_has_left_amending_is_said_to_be_right(day: Day) -> None:
    day.rig.told(Register("customer", {"name": "Corner Shop"}))
    day.rig.told(Dispatch("Corner Shop", (DispatchLine(day.drum),)))
    day.choose(day.received)
    assert day.view.undoing.slot.sentence().startswith(
        "Honey of it was bottled or has left the house. Amend it instead"
    )
    day.view.undoing.amend.setFocus()
    day.rig.keys("Return")
    amending = day.view.amending
    assert amending.what.text() == "It came from another yard"
    assert amending.about.text() == day.pull
    assert amending.slot.sentence() == "The books say: Creek."
    assert amending.right.editor.hasFocus()
    day.rig.type("Hill")
    day.rig.type("misread")
    assert day.last().entries[0].facts["said"]["yard"] == day.other  # type: ignore[index,call-overload]
    assert day.rig.toast().lead.startswith("Amended: old and new are both in reach.")
    assert day.rig.toast().action == "Reverse"


def test_a_drums_container_is_amended_by_keys(day: Day) -> None:
    day.view.list.table.select(str(day.filled))
    day.view.amend_it.setFocus()
    day.rig.keys("Return")
    assert day.view.amending.what.text() == "It is in another container"
    assert day.view.amending.slot.sentence() == "The books say: Drum 7."
    day.rig.type("Drum 8")
    day.rig.type("read wrongly")
    entry = day.last().entries[0]
    assert entry.kind == "amend"
    assert entry.facts["said"]["container"] == day.drum_8  # type: ignore[index,call-overload]


def test_unknown_honey_is_amended_to_its_pallet_scanned(day: Day) -> None:
    tag = next(
        code for code in day.rig.told(Receive((Line(day.other, 12),))).given if code[0] == "G"
    )
    done = day.rig.told(Fill(day.tank, Weight(net_g=290_000), container="Drum 8"))
    unknown = next(code for code in done.codes if code[0] == "S")
    day.view.list.table.select(str(done.entries[0].id))
    day.view.amend_it.click()
    day.rig.settle()
    amending = day.view.amending
    assert amending.what.text() == "The honey of unknown source was a pallet"
    assert amending.about.text() == unknown
    day.rig.scan(tag)
    assert amending.code.text() == tag
    amending.form.take_focus(amending.happened)
    day.rig.now_ms += 20 * MINUTE_MS
    day.rig.type("08:41")
    day.rig.type("its tag lay on the floor")
    entry = day.last().entries[0]
    assert entry.facts["said"]["pallet"] == tag  # type: ignore[index,call-overload]
    assert entry.act.happened.at_ms == START_MS + MINUTE_MS


def test_an_amendment_that_cannot_be_says_why_in_its_field(day: Day) -> None:
    day.view.list.table.select(str(day.received))
    day.view.amend_it.click()
    day.rig.settle()
    day.rig.type("Creek")
    day.rig.type("no change")
    assert "is already booked so" in day.view.amending.slot.sentence()
    day.view.amending.right.set_text("")
    day.view.amending.submit()
    day.rig.settle()
    assert "Say what was wrong" in day.view.amending.slot.sentence()
    assert day.rig.head()[0] == day.filled


def test_what_is_reversed_already_offers_neither(day: Day) -> None:
    day.choose(day.filled)
    day.rig.type("wrong tank")
    day.view.list.table.select(str(day.filled))
    assert not day.view.reverse_it.isVisible()
    assert not day.view.amend_it.isVisible()
    day.view.undo(day.filled)
    day.rig.settle()
    assert day.view.undoing.slot.sentence().startswith("This cannot be reversed.")
    assert not day.view.undoing.form.isVisible()
    assert day.view.undoing.back.hasFocus()
    day.rig.keys("Return")
    assert day.view.sides.currentWidget() is day.view.entry


def test_the_card_of_what_an_entry_is_about_opens(day: Day) -> None:
    day.view.list.table.select(str(day.filled))
    day.view.list.take_focus()
    day.rig.keys("Return")
    assert day.rig.window.card.widget.code() == day.drum
    day.rig.keys("Esc", "Ctrl+I")
    assert day.rig.window.card.widget.code() == day.drum


def test_the_key_that_means_nothing_here_is_not_taken(day: Day) -> None:
    assert not day.view.handle("repeat")
    assert not day.view.take_code("no code at all")


def test_while_nobody_sees_it_the_page_asks_nothing(day: Day) -> None:
    day.rig.keys("Ctrl+2")
    before = day.listed()
    day.rig.told(Register("yard", {"name": "Moor"}))
    assert day.listed() == before
    day.rig.keys("Ctrl+E")
    assert day.listed()[0] == day.filled + 1


@pytest.mark.parametrize("size", [(1280, 800), (1024, 700), (640, 400)])
def test_a_panel_never_pushes_the_page_wider(day: Day, size: tuple[int, int]) -> None:
    day.rig.window.resize(*size)
    day.choose(day.received)
    day.rig.settle()
    panel = day.view.undoing.panel
    assert panel.isVisible()
    assert panel.width() <= day.view.side.width()
    for button in (day.view.undoing.all, day.view.undoing.back):
        right = button.mapTo(panel, button.rect().bottomRight()).x()
        assert right <= panel.width()


def test_amendments_are_in_reach_of_the_trace(day: Day) -> None:
    day.rig.told(Amend(day.pull, "misread", yard=day.other))
    rows = day.view.list.table.model.rows()
    assert rows[0].sentence.startswith(f"Amended: {day.pull}, ")
    assert rows[0].sentence.endswith(" of Hill, not Creek (misread).")


def test_what_became_of_a_lot_is_printed_by_its_key(day: Day) -> None:
    day.choose(day.received)
    assert day.view.handle("print")
    day.rig.settle()
    (file,) = (day.rig.folder / "papers").glob("Lot history *.pdf")
    assert file.stem.removeprefix("Lot history ")[0] == "S"
