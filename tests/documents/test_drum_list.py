"""What stands on a drum list, and on how many pages."""

from dataclasses import replace
from datetime import date
from typing import Any

import pypdfium2
import pytest

from honeyledger.documents.drum_list import drum_list_pdf
from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.services.drum_list import DrumList, DrumRow
from tests.support import printing
from tests.support.stress import overlapping

DRUM = DrumRow(
    code=printing.code("D", 611),
    supplier_lot="",
    container="Drum 31",
    gross_g=311_400,
    tare_g=18_200,
    net_g=293_200,
    pending=False,
    moisture=1740,
    colour=183,
    season=2026,
    filled=date(2026, 7, 24),
    owner="",
)


def _list(*rows: DrumRow, **changes: Any) -> DrumList:
    drums = DrumList(
        house=printing.HOUSE,
        note=printing.code("N", 39),
        customer="Corner Shop",
        sent=Moment(1_784_882_400_000, 0, "UTC"),
        told=(("Contract", "C 2026/4"), ("Seals", "88101, 88102")),
        rows=rows,
        head="1317 84EDABD03458",
    )
    return replace(drums, **changes)


def _print(drums: DrumList, paper: str = "a4", unit: MassUnit = "kg") -> bytes:
    return drum_list_pdf(drums, printing.typefaces(), paper=paper, unit=unit)


def _text(drums: DrumList, **more: Any) -> str:
    return printing.text_of(_print(drums, **more)).replace("- ", "-")


def _pages(pdf: bytes) -> int:
    with pypdfium2.PdfDocument(pdf) as document:
        return len(document)


def test_a_list_of_a_note() -> None:
    other = replace(DRUM, code=printing.code("D", 612), container="", owner="Packer")
    text = _text(_list(DRUM, other))
    for said in (
        printing.HOUSE,
        "Drum list",
        f"of {printing.code('N', 39)}",
        "Corner Shop",
        "24 Jul 2026 08:40",
        "C 2026/4",
        "88101, 88102",
        DRUM.code,
        "Drum 31",
        "of Packer",
        "311.4 18.2 293.2 17.4 18.3",
        "2 drums 622.8 36.4 586.4",
        "Ledger 1317 84EDABD03458",
        "Page 1 of 1",
    ):
        assert said in text, said


def test_what_is_not_known_is_left_to_be_written() -> None:
    bare = replace(DRUM, gross_g=None, tare_g=None, moisture=None, colour=None)
    text = _text(_list(bare, note="", customer="", sent=None, told=()))
    assert "1 drum 293.2" in text
    assert "Corner Shop" not in text
    waits = _text(_list(DRUM, replace(DRUM, pending=True)))
    assert "some weights are to follow" in waits
    assert "2 drums" in waits
    assert "586.4" not in waits


def test_pounds_where_the_house_weighs_in_pounds() -> None:
    assert "646.4" in _text(_list(DRUM), unit="lb", paper="letter")  # 293.2 kg


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_truck_of_drums_goes_over_pages_with_the_sums_on_the_last(paper: str) -> None:
    rows = [replace(DRUM, code=printing.code("D", 600 + at)) for at in range(66)]
    pdf = _print(_list(*rows), paper)
    assert _pages(pdf) == 3
    text = printing.text_of(pdf).replace("- ", "-")
    assert all(row.code in text for row in rows)
    assert "Page 3 of 3" in text
    assert text.count("66 drums") == 1


@pytest.mark.parametrize("count", range(24, 34))
def test_the_sums_are_never_alone(count: int) -> None:
    rows = [replace(DRUM, code=printing.code("D", 600 + at)) for at in range(count)]
    with pypdfium2.PdfDocument(_print(_list(*rows))) as document:
        last = document[len(document) - 1].get_textpage().get_text_bounded()
    assert f"{count} drums" in last
    assert "Drum 31" in last


def test_the_same_list_is_the_same_bytes() -> None:
    assert _print(_list(DRUM)) == _print(_list(DRUM))


def test_a_long_name_does_not_push_figures_away() -> None:
    long = "Upper Wolverhampstead-on-the-Marsh behind the old railway station, second gate"
    text = _text(_list(replace(DRUM, container=long)))
    assert "311.4 18.2 293.2" in text
    assert long not in text


def test_another_paper_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        _print(_list(DRUM), "a5")
    assert refused.value.key == "note-not-on-paper"


def test_a_seal_stands_under_its_drum_and_who_printed_at_the_foot() -> None:
    sealed = replace(DRUM, seal="A 104")
    text = _text(_list(sealed, DRUM, printed="Printed 24 Jul 2026 08:40 by Ann Reed", again=2))
    assert text.count("seal A 104") == 1
    assert "Drum list reprint 2" in text
    assert "Printed 24 Jul 2026 08:40 by Ann Reed" in text
    long = replace(DRUM, container="Wilhelmina " * 6, seal="W" * 40)
    pdf = _print(_list(long, long))
    assert overlapping(printing.text_boxes(pdf)) == []
