"""Rows are narrowed by what they show and ordered by what it means."""

from dataclasses import dataclass
from datetime import datetime
from random import Random

import pytest

from honeyledger.desktop.models.row_order import (
    Given,
    Meant,
    day_shown,
    is_number,
    key_of,
    meant_rows,
    ordered,
    plain_number,
    shown_key,
)
from honeyledger.desktop.models.rows import Column, ColumnKind


@dataclass(frozen=True)
class Drum:
    code: str
    where: str
    net_g: int | None
    mm: float | None = None


DRUMS = (
    Drum("D26-0611-Y", "Drum 10, row B", 300_500, 39),
    Drum("D26-0612-W", "Drum 9, row A", None),
    Drum("D26-0613-U", "Drum 9, row B", 41_000, 12),
)
CODE: Column[Drum] = Column("code", "Drum", lambda row: row.code, ColumnKind.CODE)
WHERE: Column[Drum] = Column(
    "where", "Where", lambda row: row.where, ColumnKind.NAME, note=lambda row: f"{row.net_g} g"
)
NET: Column[Drum] = Column(
    "net",
    "Net",
    lambda row: "" if row.net_g is None else f"{row.net_g / 1000:.1f}",
    ColumnKind.NUMBER,
    sort_key=lambda row: row.net_g,
)
COLOUR: Column[Drum] = Column("colour", "Colour", kind=ColumnKind.COLOUR, pfund_mm=lambda r: r.mm)
GIVEN = Given(DRUMS, (CODE, WHERE, NET, COLOUR))


def _codes(meant: Meant) -> list[str]:
    return [row.code[4:8] for row in meant_rows(GIVEN, meant)]


def test_what_has_no_value_comes_last_either_way() -> None:
    assert _codes(Meant(by="net")) == ["0613", "0611", "0612"]
    assert _codes(Meant(by="net", descending=True)) == ["0611", "0613", "0612"]
    assert _codes(Meant(by="colour")) == ["0613", "0611", "0612"]


def test_a_column_without_a_key_of_its_own_is_ordered_as_people_count() -> None:
    assert _codes(Meant(by="where")) == ["0612", "0613", "0611"]
    assert _codes(Meant(by="where", descending=True)) == ["0611", "0613", "0612"]


@pytest.mark.parametrize(
    ("less", "more"),
    [
        ("9.5", "10"),
        ("\u22123", "2"),
        ("999", "1\u202f000"),
        ("30 Dec 2025", "2 Jan 2026"),
        ("9 Sep 2026", "12 Sep 2026"),
        ("12 Sep 08:05", "12 Sep 17:30"),
        ("2 Oct 2026, 08:05", "2 Oct 2026, 09:00"),
        ("7:30", "16:00"),
        ("Drum 9", "drum 10"),
        ("D26-0611-Y", "D26-0612-W"),
        ("300", "open"),
    ],
)
def test_a_shown_text_is_ordered_by_what_it_means(less: str, more: str) -> None:
    one, other = shown_key(less), shown_key(more)
    assert one is not None
    assert other is not None
    assert one < other


def test_an_empty_text_has_no_place_in_the_order() -> None:
    assert shown_key("  ") is None
    assert key_of(NET)(DRUMS[1]) is None


def test_equal_rows_keep_the_order_they_were_given_in_however_many_there_are() -> None:
    chance = Random(3)
    rows = [Drum(str(number), "", chance.randrange(50)) for number in range(20_000)]
    for descending in (False, True):
        expected = sorted(rows, key=lambda row: row.net_g or 0, reverse=descending)
        assert ordered(rows, NET, descending=descending) == expected


def test_rows_are_narrowed_by_all_words_whatever_their_case_and_wherever_they_stand() -> None:
    assert _codes(Meant("ROW b")) == ["0611", "0613"]
    assert _codes(Meant("xw 300500")) == []
    assert _codes(Meant("b 300500 g")) == ["0611"]
    assert _codes(Meant("xw")) == ["0613"], "a colour is found by its class"
    assert _codes(Meant("row b", by="net")) == ["0613", "0611"]
    assert _codes(Meant("  ")) == ["0611", "0612", "0613"]


def test_thousands_are_found_with_and_without_their_gap() -> None:
    column: Column[str] = Column("net", "Net", lambda row: row, ColumnKind.NUMBER)
    given = Given(("1\u202f234.5", "234.5"), (column,))
    assert list(given.like("1234")) == ["1\u202f234.5"]
    assert list(given.like("1\u202f234")) == ["1\u202f234.5"]


def test_a_third_time_the_rows_stand_as_they_were_given() -> None:
    first = Meant("b").turned("net")
    assert first == Meant("b", "net")
    assert first.turned("net") == Meant("b", "net", descending=True)
    assert first.turned("net").turned("net") == Meant("b")
    assert first.turned("where") == Meant("b", "where")
    assert Meant().is_plain
    assert not first.is_plain


def test_a_figure_is_plain_for_other_programs_and_a_text_stays() -> None:
    assert plain_number("\u22121\u202f234.50") == "-1234.50"
    assert plain_number("17 to 18") == "17 to 18"
    assert is_number("-1234.50")
    assert not is_number("1.2.3")


def test_a_day_is_one_only_where_nothing_else_stands_there() -> None:
    assert day_shown("24 Jul 2026") == datetime.fromisoformat("2026-07-24")
    assert day_shown("24 Jul 2026 08:40") == datetime.fromisoformat("2026-07-24T08:40")
    for text in ("24 Jul", "24 Jul 2026, by dip", "31 Feb 2026", "24 Foo 2026", "13:58", ""):
        assert day_shown(text) is None, text
