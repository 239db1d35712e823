"""What the open note shows: what is to pick and where, what is picked, what is wrong with it."""

from dataclasses import replace

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.dispatch.picking import Rest
from honeyledger.desktop.stations.dispatch.rows import (
    LineRow,
    asked_words,
    customer_key,
    customer_words,
    group_name,
    lately_figures,
    lately_heading,
    line_columns,
    line_rows,
    net_of,
    rest_words,
    serial_words,
    sign_words,
    sum_of,
    sum_totals,
    sum_words,
)
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked
from honeyledger.desktop.stations.dispatch.words import note_messages
from tests.desktop.stations.dispatch.pages import CASE, CLOVER, DRUM, HELD, NEW, OLD, ONE_WAY, PAGE


def _note(*picked: Picked) -> NoteTyped:
    return NoteTyped("Corner Shop", picked=picked)


def _row(picked: Picked) -> LineRow:
    return line_rows(_note(picked), PAGE)[0]


def test_the_order_says_where_to_pick_the_oldest() -> None:
    note = _note().with_wanted(CLOVER, 150).with_wanted("lots/D", 1).with_wanted("product/x", 1)
    rows = line_rows(note, PAGE)
    assert [(row.name, row.state, row.count, row.note) for row in rows] == [
        (
            "Clover 500 g",
            "to pick",
            "0 of 150",
            "oldest: J26-0001-L, 100 jars, 24 Jul 2026",
        ),
        ("Drums", "to pick", "0 of 1", "oldest: D26-0001-C"),
        ("X", "to pick", "0 of 1", "none here that may go"),
    ]
    assert all(row.mark is Mark.NOTE for row in rows)


def test_a_picked_lot_that_is_held_says_by_which_way_in_its_tip() -> None:
    way = "Mill Lane, by way of T26-0001-J: treated"
    page = replace(PAGE, by_code={**PAGE.by_code, HELD.code: replace(HELD, way=way)})
    note = _note(Picked(HELD.code, "J", jars="5"))
    row = line_rows(note, page)[0]
    name = next(column for column in line_columns("kg") if column.key == "name").cell(row)
    assert (name.note, name.detail) == ("Mill Lane: treated", way)
    messages = note_messages(note, page)
    assert [one.text for one in messages] == [way]


def test_what_is_picked_stands_newest_first_and_what_is_done_last() -> None:
    note = _note(Picked(OLD.code, "J", jars="100"), Picked(DRUM.code, "D"))
    rows = line_rows(note.with_wanted(CLOVER, 150).with_wanted("lots/D", 1), PAGE)
    assert [(row.key, row.state, row.count, row.grams) for row in rows] == [
        (CLOVER, "to pick", "100 of 150", 0),
        (DRUM.code, "ready", "", 280_000),
        (OLD.code, "ready", "100", 50_000),
        ("lots/D", "picked", "1 of 1", 0),
    ]
    assert rows[0].note == "oldest: J26-0002-J, 200 jars, 24 Jul 2026"
    assert [row.mark for row in rows[1:]] == [Mark.READY] * 3


@pytest.mark.parametrize(
    ("picked", "state", "note"),
    [
        (Picked(OLD.code, "J", jars="40"), "ready", ""),
        (Picked(OLD.code, "J"), "how many?", ""),
        (Picked(OLD.code, "J", jars="101"), "too many", "100 are here"),
        (Picked(NEW.code, "J", jars="5"), "older left", "J26-0001-L is older: 100 jars of it"),
        (Picked(HELD.code, "J", jars="5"), "hold", "Mill Lane: treated"),
        (Picked("D26-0050-V", "D"), "gone", "it is no longer here"),
        (Picked(ONE_WAY.code, "D"), "ready", "its weight is to follow"),
        (Picked(OLD.code, "J", jars="2", serials=(7, 3)), "ready", "jars 00003, 00007"),
    ],
)
def test_each_line_says_its_state(picked: Picked, state: str, note: str) -> None:
    row = _row(picked)
    assert (row.state, row.note) == (state, note)


def test_a_drum_is_called_by_its_container_or_what_it_is() -> None:
    assert _row(Picked(DRUM.code, "D")).name == "Drum 7"
    assert _row(Picked(ONE_WAY.code, "D")).name == "Drum"
    assert _row(Picked(DRUM.code, "D", net="50")).grams == 50_000
    assert _row(Picked(DRUM.code, "D", net="?")).grams == 280_000
    assert net_of(Picked(DRUM.code, "D", net="110,2"), "lb") == 49_986


@pytest.mark.parametrize(
    ("picked", "words"),
    [
        (Picked("J", "J"), ""),
        (Picked("J", "J", serials=(741, 382), is_span=True), "jars 00382 to 00741"),
        (Picked("J", "J", serials=(1, 2, 3, 4, 5)), "00001 and 4 more jars"),
    ],
)
def test_jars_scanned_in_words(picked: Picked, words: str) -> None:
    assert serial_words(picked) == words


def test_a_note_is_summed_with_its_gross_where_all_of_it_is_known() -> None:
    drums = sum_of(_note(Picked(DRUM.code, "D")), PAGE)
    assert (drums.lots, drums.jars, drums.net_g, drums.gross_g) == (1, 0, 280_000, 298_000)
    assert sum_words(drums, "kg") == "1 lot, gross 298.0 kg"
    mixed = _note(Picked(DRUM.code, "D"), Picked(OLD.code, "J", jars="40"))
    both = sum_of(mixed, PAGE)
    assert (both.lots, both.jars, both.net_g, both.gross_g) == (2, 40, 300_000, None)
    assert sum_words(both, "kg") == "2 lots"
    assert {key: total.text for key, total in sum_totals(both, "kg").items()} == {
        "count": "40",
        "net": "300.0",
    }
    gone = sum_of(_note(Picked("D26-0050-V", "D"), Picked(DRUM.code, "D", net="50")), PAGE)
    assert (gone.net_g, gone.gross_g) == (50_000, None)
    none = sum_of(_note(), PAGE)
    assert (sum_words(none, "kg"), sum_totals(none, "kg")) == ("Nothing picked yet", {})
    assert sign_words(mixed, PAGE) == "Sign and send 2 lots, 300.0 kg"
    assert sign_words(_note(), PAGE) == sign_words(mixed, None) == "Sign and send"


def test_columns_are_in_the_houses_unit() -> None:
    net = line_columns("lb")[-1]
    assert net.unit == "lb"
    assert net.text(_row(Picked(DRUM.code, "D"))) == "617.3"
    assert net.text(line_rows(_note().with_wanted(CLOVER, 1), PAGE)[0]) == ""


def test_what_a_customer_had_lately() -> None:
    assert [one.figure for one in lately_figures(PAGE, "corner-shop")] == [
        "222 kg",
        "44",
        "24 Jul 2026",
    ]
    assert [one.meaning for one in lately_figures(PAGE, "gate")] == ["on 1 note", "the last note"]
    assert lately_figures(PAGE, "packer") == []
    assert lately_heading("Packer") == "Packer had in the last 60 days"


def test_names_of_customers_and_goods() -> None:
    assert customer_key(" corner shop", PAGE) == customer_key("corner-shop", PAGE) == "corner-shop"
    assert customer_key("Gate", PAGE) == "gate"
    assert customer_key("Nobody", PAGE) == customer_key("", PAGE) == ""
    assert customer_words("gate") == "the farm gate"
    assert customer_words(" ") == "no customer yet"
    assert group_name("product/aster-250-g", PAGE) == "Aster 250 g"
    assert asked_words("lots/D", 1, PAGE) == "1 drum"
    rest = (Rest(CLOVER, 264, 0), Rest("lots/D", 2, 0), Rest(CLOVER, 1, 1))
    assert rest_words(rest, PAGE) == "264 Clover 500 g, 2 drums"


def test_a_case_says_what_is_in_it() -> None:
    picked = Picked(CASE.code, "C")
    row = _row(picked)
    assert (row.name, row.count, row.grams) == ("Case: Clover 500 g", "12", 6_000)
    total = sum_of(_note(picked), PAGE)
    assert (total.jars, total.net_g, total.gross_g) == (12, 6_000, None)
