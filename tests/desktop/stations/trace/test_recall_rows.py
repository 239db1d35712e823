"""The tables of a call back: papers, states, sums."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.trace.recall_rows import (
    complaint_columns,
    lot_columns,
    lot_state,
    lot_totals,
    who_columns,
    who_totals,
)
from honeyledger.services.affected import Affected, AffectedLot, Consignee, SentNote
from honeyledger.services.complaints import ComplaintRow
from honeyledger.services.recall_page import ComplaintLine

NOTES = (SentNote("N26-0039-0", "2026-09-25"), SentNote("N26-0042-9", "2026-09-26"))
SHOP = Consignee("shop", "Corner Shop", ("J26-0001-L", "J26-0002-J"), 60_000, 1_200, NOTES)
LOT = AffectedLot(
    "J26-0001-L", "jars", "shelf 1", 100_000, 40_000, 60_000, 0, 0, 500, 0, 80, held=False
)
SCOPE = Affected("J26-0001-L", "J26-0001-L", False, (LOT,), (SHOP,), 9, 12, "ab", "Test House")


def _texts(columns: tuple, row: object) -> dict[str, str]:  # type: ignore[type-arg]
    return {column.key: column.text(row) for column in columns}


def test_who_has_it_names_the_first_paper_and_counts_the_rest() -> None:
    shown = _texts(who_columns("kg"), SHOP)
    assert shown == {
        "name": "Corner Shop",
        "notes": "N26-0039-0 25 Sep 2026 +1",
        "lots": "J26-0001-L +1",
        "jars": "1\u202f200",
        "grams": "60.0",
    }
    full = _texts(who_columns("kg", in_full=True), SHOP)
    assert full["notes"] == "N26-0039-0 25 Sep 2026, N26-0042-9 26 Sep 2026"
    assert full["lots"] == "J26-0001-L, J26-0002-J"
    lead, totals = who_totals(SCOPE, "kg")
    assert (lead, totals["jars"].text, totals["grams"].text) == (
        "1 customer",
        "1\u202f200",
        "60.0",
    )


def test_a_lot_says_what_can_still_be_done_with_it() -> None:
    states = {
        "free": LOT,
        "on hold": replace(LOT, held=True),
        "sent": replace(LOT, here_g=0),
        "used up": replace(LOT, here_g=0, sent_g=0),
    }
    marks = {}
    state = next(column for column in lot_columns("kg") if column.key == "state")
    assert state.mark is not None
    for words, row in states.items():
        assert lot_state(row) == words
        marks[words] = state.mark(row)
    assert marks == {
        "free": Mark.WARNING,
        "on hold": Mark.HOLD,
        "sent": Mark.NOTE,
        "used up": Mark.READY,
    }
    shown = _texts(lot_columns("kg"), LOT)
    assert (shown["where"], shown["here"], shown["went_on"]) == ("jars, shelf 1", "40.0", "")
    assert _texts(lot_columns("kg"), replace(LOT, where=""))["where"] == "jars"
    drum = replace(LOT, noun="drum", where="drum Pail 60")
    assert _texts(lot_columns("kg"), drum)["where"] == "drum Pail 60"


def test_only_what_stands_once_is_added_up() -> None:
    lead, totals = lot_totals(SCOPE, "kg")
    assert lead == "1 lot"
    assert {key: total.text for key, total in totals.items()} == {
        "here": "40.0",
        "sent": "60.0",
        "missing": "0.5",
    }


def test_a_complaint_is_open_until_it_is_answered_and_shows_its_trace() -> None:
    row = ComplaintRow(7, "J26-0001-L", "J26-0001-00007-R", "2026-09-20", "Ms Orla", "sour", "")
    columns = complaint_columns()
    shown = _texts(columns, ComplaintLine(row, "Long Field 100.0 %"))
    assert shown["code"] == "J26-0001-00007-R"
    assert (shown["state"], shown["day"], shown["number"]) == ("open", "20 Sep 2026", "7")
    what = next(column for column in columns if column.key == "what")
    assert what.note is not None
    assert what.note(ComplaintLine(row, "Long Field 100.0 %")) == "Long Field 100.0 %"
    answered = ComplaintLine(replace(row, answer="taken back", jar=""), "")
    assert _texts(columns, answered)["state"] == "answered"
    assert _texts(columns, answered)["code"] == "J26-0001-L"
