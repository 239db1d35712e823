"""What may stand in a table's cells, and what its rows mean."""

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from honeyledger.domain.codes import make_code
from honeyledger.domain.moments import format_iso
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import Sheet, read_sheet
from honeyledger.exchange.mapping import (
    Known,
    Pallet,
    Setting,
    colour,
    count_of,
    day,
    mass,
    moisture,
    moment,
    pallets_in,
    receipt_columns,
    temperature,
    words,
    yard_columns,
    yards_in,
    yes_or_no,
)
from honeyledger.ledger.verbs.dock import PALLET_TARE_G

NOW_MS = round(datetime(2026, 8, 10, 18, 0, tzinfo=UTC).timestamp() * 1000)
SETTING = Setting("America/Winnipeg", NOW_MS)
KNOWN = Known(
    {"oatfell": "Y26-0022-F", "pikestaff": "Y26-0023-D", "9": "Y26-0022-F"},
    {"medium": "medium", "deep": "deep"},
    ["Oatfell", "Pikestaff"],
)


def sheet(tmp_path: Path, content: str, *, of_yards: bool = False) -> Sheet:
    path = tmp_path / "table.csv"
    path.write_text(content, encoding="utf-8")
    return read_sheet(path, yard_columns() if of_yards else receipt_columns(SETTING))


def pallets(tmp_path: Path, content: str) -> list[Pallet]:
    read = sheet(tmp_path, content)
    found = pallets_in(read, KNOWN)
    read.check()
    return found


def problem(tmp_path: Path, content: str) -> str:
    with pytest.raises(Refusal) as refused:
        pallets(tmp_path, content)
    return refused.value.text


@pytest.mark.parametrize(
    ("read", "text", "unit", "value"),
    [
        (words, " Old  Skarn Pit ", "", "Old Skarn Pit"),
        (count_of("a number of supers", 1), "36", "", 36),
        (mass(SETTING), "512,5", "", 512_500),
        (mass(Setting("UTC", 0, "lb")), "10", "", 4_536),
        (mass(SETTING), "10", "lb", 4_536),
        (moisture, "17,8 %", "%", 1_780),
        (colour, "34", "mm", 340),
        (temperature, "95", "F", 350),
        (temperature, "35", "C", 350),
        (yes_or_no, "Yes", "", True),
        (yes_or_no, "n", "", False),
        (day(SETTING), "2026-08-09", "", date(2026, 8, 9)),
    ],
)
def test_cells_become_whole_units(read: Any, text: str, unit: str, value: object) -> None:
    assert read(text, unit) == value


def test_times_are_read_by_the_houses_clock() -> None:
    assert format_iso(moment(SETTING)("9 Aug 2026 14:05", "")) == "2026-08-09T14:05:00.000-05:00"


@pytest.mark.parametrize(
    ("read", "text", "sentence"),
    [
        (
            moment(SETTING),
            "2026-08-11 14:05",
            "11 Aug 2026 14:05 is in the future, for it is now 10 Aug 2026 13:00: type when it "
            "happened.",
        ),
        (
            day(SETTING),
            "2026-08-11",
            "11 Aug 2026 is in the future, for today is 10 Aug 2026: type the day it happened.",
        ),
        (yes_or_no, "perhaps", "perhaps is neither yes nor no. Write one of the two."),
        (
            count_of("a number of supers", 1),
            "0",
            "0 cannot be a number of supers: type a figure from 1 to "
            "1\u202f000\u202f000\u202f000.",
        ),
    ],
)
def test_what_cannot_be_is_refused(read: Any, text: str, sentence: str) -> None:
    with pytest.raises(Refusal) as refused:
        read(text, "")
    assert refused.value.text == sentence


def test_a_pallets_rows_become_one_receipt(tmp_path: Path) -> None:
    first, second, third = pallets(
        tmp_path,
        "Pallet,Arrived,Yard,Pulled,Crew,Supers,Sheet,Box,Gross kg,Tare kg,Condition,Moisture\n"
        "7,2026-08-09 14:30,Oatfell,2026-08-09,Petra,20,21,,655,41,mixed,17.9\n"
        "8,2026-08-09 14:40,Pikestaff,,,30,,deep,,,,\n"
        '7,2026-08-09 14:30,"pikestaff",2026-08-09,Petra,12,,,,,,\n'
        ",2026-08-09 15:10,9,,,5,,,,,,\n",
    )
    assert first.name == "7"
    facts = first.facts
    assert (facts.gross_g, facts.tare_g, facts.condition, facts.moisture) == (
        655_000,
        41_000,
        "mixed",
        1_790,
    )
    assert [(line.yard, line.count, line.sheet) for line in facts.lines] == [
        ("Y26-0022-F", 20, 21),
        ("Y26-0023-D", 12, None),
    ]
    assert facts.lines[0].pulled == "2026-08-09"
    assert facts.lines[0].crew == "Petra"
    assert (second.facts.lines[0].box, second.facts.gross_g) == ("deep", None)
    assert second.facts.tare_g == PALLET_TARE_G
    assert third.facts.lines[0].yard == "Y26-0022-F"
    assert not any(one.facts.pallet for one in (first, second, third))


def test_a_tag_printed_before_is_a_tag_and_a_number_is_not(tmp_path: Path) -> None:
    heads = "Tag,Arrived,Yard,Supers\n"
    tag = str(make_code("G", 26, 7)).lower()
    (tagged,) = pallets(tmp_path, heads + f"{tag},2026-08-09 14:30,Oatfell,20\n")
    (numbered,) = pallets(tmp_path, heads + "12,2026-08-09 14:30,Oatfell,20\n")
    assert tagged.facts.pallet == tag
    assert numbered.facts.pallet == ""
    misread = tag[:-1] + ("0" if tag[-1] != "0" else "2")
    assert problem(tmp_path, heads + f"{misread},2026-08-09 14:30,Oatfell,20\n") == (
        f"table.csv, row 2, Tag: {misread.upper()} is misread: its last character does not fit "
        "the rest. Scan or type it again."
    )


HEADS = "Pallet,Arrived,Yard,Pulled,Supers,Box,Gross kg,Condition\n"


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        (
            "1,2026-08-09 14:30,Otfell,,20,,,\n",
            "table.csv, row 2, Yard: there is no yard Otfell yet. Was it Oatfell? Register it "
            "first, or correct it.",
        ),
        (
            "1,2026-08-09 14:30,Sunrise,,20,,,\n",
            "table.csv, row 2, Yard: there is no yard Sunrise yet. Register it first, or correct "
            "it.",
        ),
        (
            "1,2026-08-09 14:30,Oatfell,,20,half,,\n",
            "table.csv, row 2, Box: there is no box type half. Write one of deep, medium, or "
            "register it.",
        ),
        (
            "1,2026-08-09 14:30,Oatfell,,20,,,wet\n",
            "table.csv, row 2, Condition: wet is no condition. Write sealed, mixed or green.",
        ),
        (
            "1,2026-08-09 14:30,Oatfell,2026-08-10,20,,,\n",
            "table.csv, row 2, Pulled: pulled on 10 Aug 2026, after it arrived on 9 Aug 2026. "
            "Correct one of them.",
        ),
        (
            "1,2026-08-09 14:30,Oatfell,,20,,600,\n1,2026-08-09 14:30,Pikestaff,,9,,610,\n",
            "table.csv, row 3, Gross kg: 610000 here, but 600000 in row 2 for the same pallet. "
            "Write it once, in the first row.",
        ),
        (
            "1,2026-08-09 14:30,Oatfell,,20,,,\n1,2026-08-09 14:50,Pikestaff,,9,,,\n",
            "table.csv, row 3, Arrived: another time here, but another time in row 2 for the same "
            "pallet. Write it once, in the first row.",
        ),
    ],
)
def test_a_row_that_cannot_be_is_named(tmp_path: Path, rows: str, sentence: str) -> None:
    assert problem(tmp_path, HEADS + rows) == sentence


def test_near_yards_are_offered_by_code(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        pallets(tmp_path, HEADS + "1,2026-08-09 14:30,Pikstaf,,20,,,\n")
    assert refused.value.offers == ("Y26-0023-D",)


def test_yards_become_records_without_what_is_not_said(tmp_path: Path) -> None:
    read = sheet(
        tmp_path,
        "Name;Colonies;Lat;Long;Forage\nOatfell;32;49,51;-98,75;canola\nPikestaff;;;;\n",
        of_yards=True,
    )
    assert yards_in(read) == [
        {
            "name": "Oatfell",
            "colonies": 32,
            "latitude": 495_100_000,
            "longitude": -987_500_000,
            "forage": "canola",
        },
        {"name": "Pikestaff"},
    ]
    read.check()


def test_a_yard_named_twice_is_refused(tmp_path: Path) -> None:
    read = sheet(tmp_path, "Yard\nOatfell\nPikestaff\noatfell\n", of_yards=True)
    yards_in(read)
    with pytest.raises(Refusal) as refused:
        read.check()
    assert refused.value.text == (
        "table.csv, row 4, Yard: oatfell stands in row 2 already. Keep one of them."
    )
