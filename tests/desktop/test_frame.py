"""The frame tells the truth: the line's figures, the mast, the foot, what others record."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.frame import (
    LATELY_MS,
    MINUTE_MS,
    BackUpMeant,
    Frame,
    FrameRow,
    alerts_of,
    backup_words,
    frame_row,
    line_figures,
    place_names,
    station_words,
    status_facts,
)
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.backups import OLD_MS, AtStake, Backup
from honeyledger.services.store import Seen
from tests.desktop.rig import DeskRig
from tests.support.houses import BuiltHouse


def _row(house: BuiltHouse, operator: str = "") -> FrameRow:
    return house.house.ask(lambda view: frame_row(view, house.now_ms, operator, None))


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
    facts = status_facts(_row(house), house.now_ms)
    digest = house.house.ask(lambda view: view.head()).digest.upper()
    assert facts.parts == ("2 entries", f"head {digest[:4]}·{digest[4:8]}")
    assert facts.units.startswith("kg")


def _kept(house: BuiltHouse, minutes: int = 0) -> Backup:
    head = house.house.ask(lambda view: view.head())
    at_ms = house.now_ms - minutes * MINUTE_MS
    return Backup("copy", at_ms, head.ledger_id, head.entry, head.digest)


def test_the_foot_says_how_old_the_backup_is_and_what_it_lacks() -> None:
    house = BuiltHouse()
    now_ms = house.now_ms
    assert backup_words(None, now_ms) == "", "nobody keeps it from here"
    assert backup_words(AtStake(None, 2, now_ms), now_ms) == "not backed up yet"
    kept = _kept(house, minutes=14)
    assert backup_words(AtStake(kept, 0, 0), now_ms) == "backup 14 min ago"
    assert backup_words(AtStake(kept, 1, now_ms), now_ms) == "backup 14 min ago, 1 entry since"
    many = backup_words(AtStake(kept, 1200, now_ms), now_ms)
    assert many == "backup 14 min ago, 1\u202f200 entries since"


def test_the_foot_names_the_other_stations_of_the_last_hours() -> None:
    now_ms = 100 * LATELY_MS
    seen = [Seen("dock", now_ms), Seen("floor", now_ms - 4 * MINUTE_MS), Seen("", now_ms)]
    assert station_words(seen, now_ms, "dock") == "also here: floor 4 min ago"
    assert station_words(seen, now_ms + 2 * LATELY_MS, "dock") == ""
    assert station_words([], now_ms, "dock") == ""
    more = [Seen(f"bench {n}", now_ms) for n in range(5)]
    assert station_words(more, now_ms, "dock").endswith("bench 2 just now, and 2 more")


def test_an_old_backup_is_warned_of_in_words_with_the_way_out() -> None:
    house = BuiltHouse()
    since = house.now_ms
    stake = AtStake(_kept(house), 67, since)
    assert alerts_of(stake, [], since + OLD_MS) == []
    (told,) = alerts_of(stake, [], since + 4 * OLD_MS)
    assert (told.mark, told.lead) == (Mark.WARNING, "Not backed up for 4 days.")
    assert told.text == "67 entries are on this computer alone."
    assert (told.action, told.about) == ("Back up now", BackUpMeant())
    (one,) = alerts_of(AtStake(None, 1, since), [], since + OLD_MS + 1)
    assert one.sentence == "Not backed up for a day. 1 entry is on this computer alone."


def test_the_foot_begins_with_what_needs_a_person_and_counts_the_rest() -> None:
    house = BuiltHouse()
    alerts = alerts_of(None, ["The house is on a network drive.", "And synced."], house.now_ms)
    facts = status_facts(_row(house), house.now_ms, alerts=alerts[:1])
    assert facts.alert == "See to where the house is kept"
    facts = status_facts(_row(house), house.now_ms, alerts=alerts)
    assert facts.alert == "See to where the house is kept, and 1 more"


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


def test_a_place_that_is_no_good_for_a_house_is_told_once_and_stays_at_the_foot(
    rig: DeskRig,
) -> None:
    (rig.folder / ".stfolder").mkdir()  # what a sync program leaves in the folder it copies
    rig.house.record(Register("house", {"name": "H", "zone": "UTC", "unit": "kg", "prefix": ""}))
    frame, shell = _frame(rig)
    told: list[Message] = []
    frame.alerted.connect(told.append)
    for _ in range(2):
        frame.ask_warnings()
        frame.ask()
        rig.settle()
    assert [one.lead for one in told] == ["See to where the house is kept."]
    assert "sync program" in told[0].text
    assert shell.status.accessibleName().startswith("See to where the house is kept · 1 entry")
    assert [one.text for one in frame.alerts()] == [told[0].text]


def test_an_old_backup_is_told_with_what_can_be_done(rig: DeskRig) -> None:
    rig.keep_here()
    rig.house.record(Register("house", {"name": "H", "zone": "UTC", "unit": "kg", "prefix": ""}))
    frame, shell = _frame(rig)
    assert shell.status.words().endswith("not backed up yet")
    told: list[Message] = []
    frame.alerted.connect(told.append)
    rig.now_ms += 4 * OLD_MS
    frame.ask()
    rig.settle()
    assert [one.lead for one in told] == ["Not backed up for 4 days."]
    assert shell.status.accessibleName().startswith("Not backed up for 4 days · 1 entry")


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
