"""What the page of checks shows of its rows."""

from datetime import date

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.checks.rows import (
    check_columns,
    heading,
    source_words,
    told,
    used_columns,
)
from honeyledger.domain.checks import ListedCheck, State
from honeyledger.domain.moments import moment_at
from honeyledger.domain.withholding import parse_interval
from honeyledger.services.checks import CheckRow, ChecksPage
from honeyledger.services.checks_used import Used, UsedRow

PESTS = ListedCheck("pests", "Pests", "Traps.", parse_interval("1 week"))
ROW = CheckRow(
    PESTS, "", "", State.OVERDUE, "2026-07-10", date(2026, 7, 17), "ok", "two", "", "Ann"
)


def _page(*rows: CheckRow) -> ChecksPage:
    return ChecksPage("ledger-1", "kg", "UTC", date(2026, 7, 24), 0, rows, {})


def test_a_row_says_its_state_when_it_is_due_and_how_often() -> None:
    cells = {column.key: column.text(ROW) for column in check_columns()}
    assert cells == {
        "state": "overdue",
        "name": "Pests",
        "due": "17 Jul 2026",
        "every": "every week",
        "by": "Ann",
    }


def test_the_heading_counts_what_needs_a_person() -> None:
    done = CheckRow(PESTS, "", "", State.IN_ORDER)
    assert heading(_page(done)) == "Every check is in order"
    assert heading(_page(ROW, done)) == "One check needs a person"
    assert heading(_page(ROW, ROW)) == "2 checks need a person"


def test_a_check_says_what_to_look_at_by_which_source_and_how_it_was() -> None:
    first, second = told(ROW, None)
    assert (first.lead, first.text) == ("Traps.", "Every week; common practice, no source.")
    assert second.lead == "Last time: right, 10 Jul 2026, two, Ann"
    assert source_words("our plan") == "our plan"


def test_one_found_off_says_since_when_and_what_it_puts_in_doubt() -> None:
    rows = (
        UsedRow("D26-0001-C", "drum", (), True),
        UsedRow("J26-0001-L", "jar lot", ((1, 80), (120, 200)), False),
    )
    since = moment_at(1_784_882_400_000, "UTC")
    used = Used("E26-0001-X", "Sieve", since, ("R26-0001-A",), rows, ("D26-0001-C",), True)
    (message,) = told(ROW, used)
    assert message.mark is Mark.REFUSED
    assert message.lead == "Pests may be off since 24 Jul 2026 08:40."
    assert message.text == (
        "2 lots used it, in 1 run, 1 of them is free. Nobody said what it is part of, so all that "
        "was made since is meant."
    )
    (never,) = told(ROW, Used("E", "Sieve", None, (), (), (), False))
    assert (never.lead, never.text) == (
        "Pests is off, as long as it has been here.",
        "Nothing used it since.",
    )
    cells = [column.text(rows[1]) for column in used_columns()]
    assert cells == ["J26-0001-L", "jar lot", "00001 to 00080, 00120 to 00200", "free"]


def test_in_a_large_house_nobody_lists_all_that_was_ever_made() -> None:
    off = CheckRow(PESTS, "", "", State.OFF)
    first, _ = told(off, None)
    assert first.sentence == (
        "Pests is off, as long as it has been here. All that was ever made is in doubt. Keep the "
        "check again with a time."
    )
