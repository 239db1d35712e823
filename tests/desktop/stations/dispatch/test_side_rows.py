"""What stands beside the note: stock by product, open and sent notes, who has a lot."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.dispatch.side_rows import (
    had_columns,
    had_rows,
    hand_columns,
    hand_rows,
    hand_totals,
    note_columns,
    note_rows,
)
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked
from honeyledger.services.dispatch_returns import CameBack, Holder
from honeyledger.services.dispatching import GroupOnHand
from tests.desktop.stations.dispatch.pages import CLOVER, NOTE, OLD, PAGE
from tests.support.houses import START_MS


def test_stock_by_product_says_the_oldest_and_what_is_held() -> None:
    rows = hand_rows(PAGE)
    assert [(row.oldest, row.name, row.note, row.lots, row.jars) for row in rows] == [
        ("J26-0001-L", "Clover 500 g", "oldest of 24 Jul 2026, 1 more on hold", 2, 300),
        ("D26-0001-C", "Drums", "oldest of 24 Jul 2026", 2, 0),
    ]
    name = hand_columns("kg")[1]
    assert [name.cell(row).mark for row in rows] == [Mark.HOLD, None]
    totals = hand_totals(rows, "kg")
    assert [totals[key].text for key in ("lots", "jars", "grams")] == ["4", "300", "580"]


def test_a_product_of_which_all_is_held_has_no_oldest() -> None:
    page = replace(PAGE, on_hand=(GroupOnHand(CLOVER, "Clover 500 g", 0, 0, (), 2),))
    (row,) = hand_rows(page)
    assert (row.oldest, row.note) == ("", "2 more on hold")
    assert [column.text(row) for column in hand_columns("lb")[2:]] == ["0", "", "0"]


def test_open_notes_come_first_then_the_customers_own() -> None:
    other = replace(NOTE, code="N26-0002-P", customer="customer/packer", name="Packer")
    gate = replace(NOTE, code="N26-0003-N", customer="gate/2026-07-24", state="reversed")
    page = replace(PAGE, notes=(gate, other, NOTE))
    aside = (
        NoteTyped("Packer").with_wanted(CLOVER, 12),
        NoteTyped("", picked=(Picked(OLD.code, "J", jars="5"),)),
    )
    rows = note_rows(page, aside, "corner-shop")
    assert [(row.key, row.state, row.customer, row.note) for row in rows[:2]] == [
        ("aside/0", "open", "Packer", "still to pick: 12 Clover 500 g"),
        ("aside/1", "open", "no customer yet", "1 lot picked"),
    ]
    assert [row.code for row in rows[2:]] == ["N26-0001-R", "N26-0003-N", "N26-0002-P"]
    assert [row.mark for row in rows] == [
        Mark.WORKING,
        Mark.WORKING,
        Mark.READY,
        Mark.REVERSED,
        Mark.READY,
    ]
    assert (rows[2].note, rows[2].when) == ("PO 7, Own van", "24 Jul 2026")
    texts = [column.text(rows[2]) for column in note_columns("kg")]
    assert texts == ["N26-0001-R", "sent", "Corner Shop", "24 Jul 2026", "40", "300"]
    assert next(row.code for row in note_rows(page, (), "gate")) == "N26-0003-N"


def test_who_has_a_lot() -> None:
    holders = (
        Holder("Packer", "Packer", 12, 6_000, START_MS),
        Holder("gate", "farm gate, 24 Jul 2026", 0, 500, 0),
    )
    rows = had_rows(CameBack(OLD.code, "J", "Clover 500 g", holders), PAGE)
    columns = had_columns("kg")
    assert [[column.text(row) for column in columns] for row in rows] == [
        ["Packer", "24 Jul 2026 08:40", "12", "6.0"],
        ["farm gate, 24 Jul 2026", "", "", "0.5"],
    ]
    assert had_rows(None, PAGE) == []
