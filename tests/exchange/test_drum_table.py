"""A drum list as a table: read again by a reader that knows nothing of this program."""

import csv
import io
from dataclasses import replace
from datetime import date

from honeyledger.exchange.drum_table import drum_table
from honeyledger.services.drum_list import DrumList, DrumRow

DRUM = DrumRow(
    code="D26-0611-Y",
    supplier_lot="AM 22; 07",
    container='Tote "4"',
    gross_g=1_311_400,
    tare_g=60_020,
    net_g=1_251_380,
    pending=False,
    moisture=1705,
    colour=183,
    season=2025,
    filled=date(2025, 7, 24),
    owner="Größe & Co",
    seal="A 104",
)


def _rows(data: bytes) -> list[dict[str, str]]:
    assert data[:3] == b"\xef\xbb\xbf"
    text = data.decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def _list(*rows: DrumRow) -> DrumList:
    return DrumList("House", "N26-0001-R", "Packer", None, (), rows, "1 ABC")


def test_every_figure_is_a_plain_number() -> None:
    (row,) = _rows(drum_table(_list(DRUM)))
    assert row == {
        "Drum": "D26-0611-Y",
        "Their lot": "AM 22; 07",
        "Container": 'Tote "4"',
        "Gross kg": "1311.400",
        "Tare kg": "60.020",
        "Net kg": "1251.380",
        "Moisture %": "17.05",
        "Colour mm": "18.3",
        "Season": "2025",
        "Filled": "2025-07-24",
        "Owner": "Größe & Co",
        "Note": "N26-0001-R",
        "Seal": "A 104",
    }


def test_what_is_not_known_is_empty_and_pounds_are_pounds() -> None:
    bare = replace(DRUM, gross_g=None, tare_g=None, moisture=None, colour=None)
    waits = replace(DRUM, pending=True)
    first, second = _rows(drum_table(_list(bare, waits), "lb"))
    assert [first[name] for name in ("Gross lb", "Tare lb", "Moisture %", "Colour mm")] == [""] * 4
    assert first["Net lb"] == "2758.821"  # 1251.38 kg / 0.45359237
    assert (second["Gross lb"], second["Net lb"]) == ("", "")
