"""Entries, reversals and the keeping of the house in words."""

from dataclasses import replace

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.entries.presenter import EntriesPage, Previewed
from honeyledger.desktop.stations.entries.rows import (
    answer,
    backup_message,
    entry_columns,
    entry_notes,
    house_messages,
    mark_of,
    parted,
    shortly,
    state_of,
    under,
    undo_messages,
)
from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.corrections import NOT_A_REVERSAL
from honeyledger.services.backups import OLD_MS, AtStake, Backup, Keeper
from honeyledger.services.journal import Amendable, Undoing
from honeyledger.services.journal_words import EntryRow
from honeyledger.services.store import Head, Seen
from tests.support.houses import MINUTE_MS, START_MS

ROW = EntryRow(
    7,
    moment_at(START_MS, "UTC"),
    START_MS,
    "fill",
    "Filled: D26-0001-X, 290.0 kg from Tank 1 in Drum 7.",
    "D26-0001-X",
    "Ann Reed",
    "floor",
    0,
    0,
    False,
)
KEPT = Backup("/media/stick/house.honeyledger", START_MS, "ledger-1", 5, "ab" * 32)


def _keeper(kept: str = "here") -> Keeper:
    def make(*_: object) -> Backup:
        return KEPT

    return Keeper("house", kept, make, lambda _ledger: KEPT)  # type: ignore[arg-type]


def _page(**more: object) -> EntriesPage:
    head = Head("ledger-1", 7, 3, "cd" * 32)
    seen = (Seen("floor", START_MS), Seen("dock", START_MS - 4 * MINUTE_MS))
    page = EntriesPage((ROW,), False, head, seen, "kg", {}, AtStake(KEPT, 0, 0), ())
    return replace(page, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("row", "state", "mark"),
    [
        (ROW, "", None),
        (replace(ROW, reversed_by=9), "reversed", Mark.REVERSED),
        (replace(ROW, reverses=3), "reversal", Mark.REVERSED),
        (replace(ROW, late=True), "typed late", Mark.NOTE),
    ],
)
def test_only_the_unusual_has_a_state(row: EntryRow, state: str, mark: Mark | None) -> None:
    assert (state_of(row), mark_of(row)) == (state, mark)


def test_a_sentence_is_parted_over_two_lines_and_none_of_it_is_lost() -> None:
    assert parted("Received: S26-0001-4; 21 supers on G26-0001-3; moisture 18.1 %.") == (
        "Received: S26-0001-4",
        "21 supers on G26-0001-3; moisture 18.1 %.",
    )
    assert parted(ROW.sentence) == (
        "Filled: D26-0001-X, 290.0 kg",
        "from Tank 1 in Drum 7.",
    )
    assert parted("Washed: Sump.") == ("Washed: Sump.", "")
    assert under(ROW) == "from Tank 1 in Drum 7. (Ann Reed, floor)"
    assert under(replace(ROW, sentence="Washed: Sump.", by="", station="")) == ""


def test_the_list_has_its_columns_and_a_preview_no_state() -> None:
    assert [column.key for column in entry_columns()] == ["entry", "when", "state", "what"]
    assert [column.key for column in entry_columns(whole=False)] == ["entry", "when", "what"]
    assert entry_columns()[0].cell(ROW).text == "7"
    assert shortly(ROW.happened) == "24 Jul 08:40"


def test_an_entry_says_who_when_and_where() -> None:
    sentences = [note.sentence for note in entry_notes(ROW)]
    assert sentences == [
        ROW.sentence,
        "Happened 24 Jul 2026 08:40. By Ann Reed. Recorded at floor.",
    ]
    odd = replace(ROW, by="", station="", late=True, reversed_by=12)
    sentences = [note.sentence for note in entry_notes(odd)]
    assert "Reversed by entry 12." in sentences
    assert "Happened 24 Jul 2026 08:40. Nobody was signed in." in sentences
    assert "Typed well after it happened: reach is wider for it." in sentences


def test_before_reversing_one_knows_what_goes_with_it() -> None:
    way = (Amendable("yard", "S26-0001-4", "Creek"),)
    alone = Previewed(7, Undoing((ROW,), way, has_left=False))
    assert undo_messages(alone) == []
    chain = Previewed(7, Undoing((ROW, ROW), way, has_left=False))
    (one,) = undo_messages(chain)
    assert one.sentence == (
        "One entry is built on it. All are reversed together, newest first, or none is."
    )
    gone = Previewed(7, Undoing((ROW, ROW, ROW), way, has_left=True))
    first, second = undo_messages(gone)
    assert first.sentence == (
        "Honey of it was bottled or has left the house. Amend it instead: codes and labels stay "
        "true, old and new stay in reach."
    )
    assert second.lead == "2 entries are built on it."
    never = Previewed(7, Undoing((ROW,), (), has_left=False), Refusal(NOT_A_REVERSAL, entry=7))
    (refused,) = undo_messages(never)
    assert refused.mark is Mark.REFUSED
    assert refused.text.startswith("Entry 7 is a reversal itself.")


def test_how_the_house_is_kept_begins_with_what_needs_a_person() -> None:
    page = _page(warnings=("The house is on a network drive.",))
    told = house_messages(page, _keeper(), "floor", START_MS + 14 * MINUTE_MS)
    assert [message.mark for message in told] == [
        *(Mark.WARNING, Mark.READY, Mark.READY, Mark.NOTE)
    ]
    assert told[0].text == "The house is on a network drive."
    assert told[1].sentence == ("Last backup 14 min ago. It is house.honeyledger.")
    assert told[2].text == "Head CDCDCDCDCDCD, the last of 7 entries. Labels and prints carry it."
    assert told[3].text == "floor, this one, 14 min ago; dock 18 min ago."
    told = house_messages(_page(seen=()), None, "floor", START_MS)
    assert [message.lead for message in told] == ["The ledger.", "Stations."]
    assert told[1].text == "Nothing was recorded yet."


def test_a_backup_in_words() -> None:
    lost = AtStake(KEPT, 67, START_MS)
    fresh = backup_message(lost, _keeper(), START_MS + OLD_MS)
    assert (fresh.mark, fresh.lead) == (Mark.NOTE, "Last backup 24 h ago.")
    assert fresh.text.endswith("67 entries are on this computer alone.")
    assert backup_message(lost, _keeper(), START_MS + OLD_MS + 1).mark is Mark.WARNING
    never = backup_message(AtStake(None, 3, START_MS), _keeper(), START_MS)
    assert never.sentence == "Never backed up from here. 3 entries are on this computer alone."
    assert backup_message(AtStake(None, 0, 0), _keeper(), START_MS).text == ""
    server = backup_message(None, _keeper("server"), START_MS)
    assert server.lead == "Backups are made on the server."
    assert backup_message(None, _keeper("nobody"), START_MS).sentence == (
        "Not backed up. This house is for looking around."
    )


def test_the_page_opens_with_a_sentence() -> None:
    assert answer([], more=False, filtered=False) == "Nothing was recorded yet."
    assert answer([], more=False, filtered=True) == "No entry is like that."
    newest = "The last was recorded 24 Jul 2026 08:40."
    assert answer([ROW], more=True, filtered=False) == newest
    assert answer([ROW], more=False, filtered=True) == f"One entry is like that. {newest}"
    words = "2 entries are like that, and older ones."
    assert answer([ROW, ROW], more=True, filtered=True) == f"{words} {newest}"


def test_checks_that_are_due_are_told_with_how_the_house_is_kept() -> None:
    def told(checks: int) -> list[str]:
        messages = house_messages(_page(checks=checks), None, "dock", START_MS)
        return [one.sentence for one in messages if one.mark is Mark.WAITING]

    assert told(0) == []
    assert told(1) == ["One check is due. Ctrl+Shift+C lists them."]
    assert told(3) == ["3 checks are due. Ctrl+Shift+C lists them."]
