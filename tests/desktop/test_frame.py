"""The frame tells the truth: the line's figures, the mast, the foot, what others record."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.frame import (
    Frame,
    FrameRow,
    frame_row,
    line_figures,
    place_names,
    status_facts,
)
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig
from tests.support.houses import BuiltHouse


def _row(house: BuiltHouse, operator: str = "") -> FrameRow:
    return house.house.ask(lambda view: frame_row(view, house.now_ms, operator))


def test_one_question_has_all_the_frame_shows() -> None:
    house = BuiltHouse()
    badge = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    house.do(Register("house", {"name": "Hill House", "zone": "UTC", "unit": "lb", "prefix": ""}))
    row = _row(house, badge)
    assert (row.house, row.operator, row.unit, row.zone) == ("Hill House", "Ann Reed", "lb", "UTC")
    assert row.line.entries == 4
    assert _row(house).operator == ""


def test_the_line_says_what_is_where_and_what_needs_a_person() -> None:
    house = BuiltHouse()
    house.yard("Mill Lane")
    house.do(Receive((Line("Mill Lane", 10),), moisture=1850))
    held, _ = house.pull("Mill Lane", 100_000, count=1)
    house.do(PutOnHold(held, "smells of smoke"))
    figures = line_figures(_row(house).line)
    places = {place.key: place for place in figures.places}
    assert list(places) == list(place_names())
    assert (places["yards"].amount, places["yards"].unit) == (1, "yard")
    assert (places["dock"].amount, places["dock"].unit) == (11, "supers")
    assert places["hot_room"].estimated
    assert [(one.mark, one.count) for one in places["hot_room"].badges] == [
        (Mark.HOLD, 1),
        (Mark.WARNING, 1),
    ]
    assert figures.flows[0].amount_kg == 248


def test_the_foot_says_how_many_entries_and_their_head() -> None:
    house = BuiltHouse()
    facts = status_facts(_row(house))
    digest = house.house.ask(lambda view: view.head()).digest.upper()
    assert facts.parts == ("2 entries", f"head {digest[:4]}·{digest[4:8]}")
    assert facts.units.startswith("kg")


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path, begun=False)
    yield made
    made.close()


def _frame(rig: DeskRig) -> tuple[Frame, Shell]:
    shell = Shell()
    shell.resize(1280, 800)
    rig.bot.addWidget(shell)
    frame = Frame(rig.desk, shell, place_names())
    frame.ask()
    rig.settle()
    return frame, shell


def test_a_ledger_with_nothing_in_it_says_so(rig: DeskRig) -> None:
    _, shell = _frame(rig)
    assert shell.status.words() == "no entries yet"


def test_the_desk_learns_the_house_s_own(rig: DeskRig) -> None:
    rig.house.record(Register("house", {"name": "H", "zone": "UTC", "unit": "lb", "prefix": "HB"}))
    _, shell = _frame(rig)
    assert (rig.desk.unit, rig.desk.zone, rig.desk.prefix) == ("lb", "UTC", "HB")
    assert shell.mast.accessibleName().startswith("H · ")


def test_nobody_signed_in_is_asked_in_the_mast_without_stopping_work(rig: DeskRig) -> None:
    frame, shell = _frame(rig)
    frame.want_operator(True)
    assert "Who works here?" in shell.mast.side_words()
    rig.desk.operator = "O26-0001-X"
    frame.want_operator(True)
    assert "Who works here?" not in shell.mast.side_words()


def test_what_another_station_records_is_heard_of_once(rig: DeskRig) -> None:
    frame, _ = _frame(rig)
    heard: list[object] = []
    rig.desk.refresh.changed.connect(lambda kinds, me: heard.append(me))
    frame.others.look()
    rig.settle()
    assert heard == []
    rig.house.record(Register("house", {"name": "H"}))
    for _ in range(2):
        frame.others.look()
        rig.settle()
    assert heard == [frame.others]
    rig.desk.record([Register("yard", {"name": "A"})], rig.desk.said(), lambda _outcome: None)
    rig.settle()
    frame.others.look()
    rig.settle()
    assert heard == [frame.others, None], "one's own entries are told of once"


def test_a_ledger_that_cannot_be_reached_is_said_and_asked_for_again(rig: DeskRig) -> None:
    frame, shell = _frame(rig)
    house = rig.desk.house
    store = house.store
    house.store = None  # type: ignore[assignment]
    frame.ask()
    rig.settle()
    assert shell.strip.accessibleName() == "The ledger cannot be reached. Nothing is lost."
    house.store = store
    shell.strip.again.click()
    rig.settle()
    assert shell.strip.accessibleName() == ""
