"""Tables as spreadsheets write them; each bad cell is named with what to do."""

from pathlib import Path
from typing import Any

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_mass_g
from honeyledger.exchange.delimited import SHOWN, Column, Row, Sheet, read_sheet, split_head


def _mass(text: str, unit: str) -> int:
    return parse_mass_g(text, "lb" if unit == "lb" else "kg")


COLUMNS = (
    Column("yard", ("yard", "from"), lambda text, _: text, needed=True, example="Oatfell"),
    Column("gross_g", ("gross", "gross weight"), _mass),
    Column("note", ("note",), lambda text, _: text),
)


def read(tmp_path: Path, content: bytes | str) -> Sheet:
    path = tmp_path / "supers.csv"
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return read_sheet(path, COLUMNS)


def refusal(tmp_path: Path, content: bytes | str) -> Refusal:
    with pytest.raises(Refusal) as refused:
        read(tmp_path, content).check()
    return refused.value


def values(sheet: Sheet) -> list[dict[str, Any]]:
    sheet.check()
    return [dict(row.values) for row in sheet.rows]


@pytest.mark.parametrize(
    "content",
    [
        "Yard,Gross kg\nOatfell,512.5\n",
        "Yard;Gross kg\r\nOatfell;512,5\r\n",
        "Yard\tGross kg\nOatfell\t512,5",
        'yard,GROSS (kg)\n"Oatfell","512,5"\n',
        "sep=;\nFrom;Gross_weight [kg]\nOatfell;512.5\n",
        b"\xef\xbb\xbfYard;gross weight, kg\r\nOatfell;512.50\r\n\r\n",
        "Yard,Gross kg,\nOatfell,512.5,\n",
        "Gross,Yard\n1129.869 lb,Oatfell\n",
    ],
)
def test_what_spreadsheets_write_reads_alike(tmp_path: Path, content: bytes | str) -> None:
    (row,) = values(read(tmp_path, content))
    assert row["yard"] == "Oatfell"
    assert row["gross_g"] == pytest.approx(512_500, abs=1)


def test_rows_have_the_numbers_a_spreadsheet_shows(tmp_path: Path) -> None:
    sheet = read(tmp_path, 'Yard,Note\n\nOatfell,"two\nlines"\n,\nPikestaff,x\n')
    assert [row.number for row in sheet.rows] == [3, 5]
    assert sheet.rows[0].text("note") == "two\nlines"
    assert sheet.rows[0]["gross_g"] is None
    assert Row(2, {}).text("yard") == ""


def test_a_unit_in_the_head_is_what_bare_figures_are_in(tmp_path: Path) -> None:
    (row,) = values(read(tmp_path, "Yard,Gross lb\nOatfell,100\n"))
    assert row["gross_g"] == 45_359  # 453.59237 g a pound, exactly


@pytest.mark.parametrize(
    ("head", "name", "unit"),
    [
        ("Gross kg", "gross", "kg"),
        ("gross_weight (lbs)", "gross weight", "lb"),
        ("Moisture %", "moisture", "%"),
        ("Moisture%", "moisture", "%"),
        ("Colour [mm Pfund]", "colour", "mm"),
        ("Temperature °C", "temperature", "C"),
        ("Reading", "reading", ""),
        ("Pull  sheet:", "pull sheet", ""),
    ],
)
def test_a_head_is_a_name_and_a_unit(head: str, name: str, unit: str) -> None:
    assert split_head(head) == (name, unit)


def test_a_bad_cell_is_named_by_file_row_column_and_value(tmp_path: Path) -> None:
    refused = refusal(tmp_path, "Yard,Gross kg\nOatfell,51O.5\n")
    assert refused.text == (
        "supers.csv, row 2, Gross kg: 51O.5 is not a weight: type it in digits, such as 12.5 kg."
    )
    assert refused.field == "gross_g"
    assert refused.facts["value"] == "51O.5"


def test_a_figure_with_two_meanings_is_asked_about(tmp_path: Path) -> None:
    refused = refusal(tmp_path, "Yard;Gross kg\nOatfell;1.234\n")
    assert refused.text == (
        "supers.csv, row 2, Gross kg: 1.234 can mean 1 kg 234 g or 1234 kg: type 1.2340 or 1234."
    )


def test_an_empty_cell_that_is_needed_is_named(tmp_path: Path) -> None:
    refused = refusal(tmp_path, "Yard,Gross kg\n,500\n")
    assert refused.text == (
        "supers.csv, row 2, Yard: nothing stands here. Fill it in, such as Oatfell."
    )


def test_all_that_is_wrong_is_gathered_and_the_first_twenty_are_shown(tmp_path: Path) -> None:
    rows = "".join(f"Oatfell,x{at}\n" for at in range(SHOWN + 3))
    refused = refusal(tmp_path, f"Yard,Gross kg\n{rows},5\n")
    lines = refused.text.splitlines()
    assert lines[0] == ("supers.csv has 24 things to put right, so nothing of it was taken in.")
    assert lines[1].startswith("supers.csv, row 2, Gross kg: x0 is not a weight")
    assert len(lines) == 1 + SHOWN + 1
    assert lines[-1] == "and 4 more"
    problems = refused.facts["problems"]
    assert isinstance(problems, tuple)
    assert len(problems) == SHOWN + 4


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (
            "Gross kg\n5\n",
            "supers.csv has no column “yard”: name it in the first row. Also known: gross, note.",
        ),
        (
            "Yard,Gros kg\nOatfell,5\n",
            "supers.csv has a column “Gros kg” that means nothing here. Name it “gross”, or take "
            "it out.",
        ),
        (
            "Yard,Bees\nOatfell,5\n",
            "supers.csv has a column “Bees” that means nothing here. Name it one of yard, from, "
            "gross, gross weight, note, or take it out.",
        ),
        (
            "Yard,From\nOatfell,Oatfell\n",
            "supers.csv has two columns for yard: “Yard” and “From”. Keep one.",
        ),
        (
            "",
            "supers.csv has no rows. Its first row names the columns: yard, gross, note.",
        ),
        (
            "Yard,Note\nOatfell,red, blue\n",
            "supers.csv, row 2: more cells than columns. Put text with a separator in it in "
            "quotes.",
        ),
        (
            'Yard,Note\nOatfell,"red"x\n',
            "supers.csv cannot be read as a table: ',' expected after '\"'. Save it again as CSV.",
        ),
        (
            "Yard\nGräfenfeld".encode("latin-1"),
            "supers.csv is not text in UTF-8. Save it as “CSV UTF-8” in the spreadsheet.",
        ),
        (
            "Yard\nOatfell".encode("utf-16-le"),
            "supers.csv is not text in UTF-8. Save it as “CSV UTF-8” in the spreadsheet.",
        ),
    ],
)
def test_a_file_that_cannot_be_used_is_refused(
    tmp_path: Path, content: bytes | str, sentence: str
) -> None:
    assert refusal(tmp_path, content).text == sentence


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "none.csv"
    with pytest.raises(Refusal) as refused:
        read_sheet(path, COLUMNS)
    assert refused.value.text == (f"There is no file {path}. Check its name and its folder.")


def test_a_folder_is_refused_as_a_file(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        read_sheet(tmp_path, COLUMNS)
    assert refused.value.text == (
        f"{tmp_path} cannot be read (Is a directory). Close it elsewhere, or copy it, and try "
        "again."
    )
