"""What is shown comes out for a spreadsheet: units in the heads, figures plain, nothing lost."""

import csv
import io
from dataclasses import dataclass, replace

from honeyledger.desktop.models.row_sheet import SheetWords, sheet_of
from honeyledger.desktop.models.rows import Column, ColumnKind


@dataclass(frozen=True)
class Drum:
    code: str
    net: str
    note: str = ""
    mm: float | None = None
    about: bool = False


COLUMNS: tuple[Column[Drum], ...] = (
    Column("code", "Drum", lambda row: row.code, ColumnKind.CODE),
    Column("name", "Where", lambda _row: "store", note=lambda r: r.note, aside=lambda _r: ""),
    Column("colour", "Colour", kind=ColumnKind.COLOUR, unit="Pfund mm", pfund_mm=lambda r: r.mm),
    Column(
        "net",
        "Net",
        lambda row: row.net,
        ColumnKind.NUMBER,
        unit="kg",
        estimated=lambda row: row.about,
    ),
)
PLAIN = Drum("D26-0611-Y", "1\u202f300.5", mm=39)


def test_heads_have_their_units_and_figures_are_plain() -> None:
    sheet = sheet_of(COLUMNS, [PLAIN, replace(PLAIN, mm=None, net="\u22120.5")])
    assert sheet.heads == ("Drum", "Where", "Colour Pfund mm", "Colour, class", "Net kg")
    assert sheet.rows == (
        ("D26-0611-Y", "store", "39", "XLA", "1300.5"),
        ("D26-0611-Y", "store", "", "", "-0.5"),
    )


def test_what_the_page_says_in_small_has_a_column_of_its_own() -> None:
    rows = [PLAIN, replace(PLAIN, note="belongs to\nQuillery", about=True)]
    sheet = sheet_of(COLUMNS, rows, SheetWords(yes="sí", about="{column}, estimado"))
    assert sheet.heads[2] == "Where, note"
    assert sheet.heads[-1] == "Net, estimado"
    assert [row[-1] for row in sheet.rows] == ["", "sí"]
    assert sheet.as_tabs().splitlines()[2].split("\t")[2] == "belongs to Quillery"


def test_columns_stand_as_they_do_on_the_page() -> None:
    assert sheet_of(COLUMNS[::-1], [PLAIN]).heads[0] == "Net kg"
    assert sheet_of((), [PLAIN]).rows == ()


def test_a_spreadsheet_takes_no_text_for_a_formula() -> None:
    sheet = sheet_of(COLUMNS, [replace(PLAIN, code="=1+1", net="-12", note="@home")])
    assert sheet.rows[0][:3] == ("=1+1", "store", "@home"), "as it is"
    for text in (sheet.as_csv().decode("utf-8-sig"), sheet.as_tabs().replace("\t", ",")):
        assert text.splitlines()[1].startswith("'=1+1,store,'@home,")
        assert text.splitlines()[1].endswith(",-12"), "a figure below zero is none"


def test_which_columns_hold_figures_is_known() -> None:
    """Their small print does not, nor does a number that is a name."""
    sheet = sheet_of(COLUMNS, [replace(PLAIN, code="00611", about=True)])
    assert sheet.heads == ("Drum", "Where", *sheet.heads[2:])
    assert sheet.figures == (False, False, True, False, True, False)


def test_a_file_is_read_back_as_it_was() -> None:
    sheet = sheet_of(COLUMNS, [replace(PLAIN, note='a "mark", and a comma')])
    data = sheet.as_csv()
    assert data.startswith("\ufeff".encode()), "the mark by which a spreadsheet knows UTF-8"
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    assert rows == [list(sheet.heads), *map(list, sheet.rows)]


def test_the_clipboard_has_a_line_for_each_row() -> None:
    text = sheet_of(COLUMNS[:2], [PLAIN, PLAIN]).as_tabs()
    assert text == "Drum\tWhere\nD26-0611-Y\tstore\nD26-0611-Y\tstore\n"
