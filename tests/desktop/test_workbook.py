"""A table as a workbook, read back by the parts of the file (ECMA-376, the open standard)."""

import re
from datetime import datetime
from io import BytesIO
from zipfile import ZipFile

from honeyledger.desktop.models.row_sheet import Sheet
from honeyledger.desktop.workbook import workbook_bytes

NOW = datetime.fromisoformat("2026-09-25T15:40")
SHEET = Sheet(
    ("Drum", "Net kg", "Filled", "Note"),
    (
        ("D26-0611-Y", "1300.5", "24 Jul 2026 08:40", "=1+1"),
        ("00612", "-0.25", "", "+49 30"),
        ("D26-0613-U", "", "25 Jul 2026", "wet"),
    ),
    (False, True, False, False),
)
# Day 1 is 1 January 1900, and 29 February 1900 counts, which never was (ECMA-376, 18.17.4.1).
DAY_ONE = datetime.fromisoformat("1899-12-30")


def _parts(sheet: Sheet, name: str = "Drums on hand") -> dict[str, str]:
    with ZipFile(BytesIO(workbook_bytes(sheet, name, NOW))) as book:
        return {one: book.read(one).decode() for one in book.namelist()}


def _cells(parts: dict[str, str]) -> dict[str, tuple[str, str]]:
    """Each cell with its type ("s" for a shared text, "" for a figure) and its value."""
    shared = re.findall(r"<si><t[^>]*>(.*?)</t></si>", parts["xl/sharedStrings.xml"])
    found = {}
    xml = parts["xl/worksheets/sheet1.xml"]
    for place, more, value in re.findall(r'<c r="([A-Z]+\d+)"([^>]*)>(.*?)</c>', xml):
        kind = re.search(r't="(\w+)"', more)
        plain = re.sub(r"</?v>", "", value)
        is_text = kind is not None and kind[1] == "s"
        found[place] = ("s", shared[int(plain)]) if is_text else ("", plain)
    return found


def test_figures_are_figures_days_are_days_and_texts_are_texts() -> None:
    cells = _cells(_parts(SHEET))
    assert [cells[f"{at}1"][1] for at in "ABCD"] == ["Drum", "Net kg", "Filled", "Note"]
    assert (cells["B2"], cells["B3"]) == (("", "1300.5"), ("", "-0.25"))
    assert cells["A3"] == ("s", "00612"), "a number that is a name loses no nought"
    filled = datetime.fromisoformat("2026-07-24T08:40") - DAY_ONE
    assert abs(float(cells["C2"][1]) - filled.total_seconds() / 86_400) < 1e-6
    assert cells["C2"][0] == cells["C4"][0] == ""
    assert "B4" not in cells, "nothing is no nought"


def test_what_begins_like_a_formula_is_a_text_that_stays_one() -> None:
    parts = _parts(SHEET)
    cells = _cells(parts)
    assert (cells["D2"], cells["D3"]) == (("s", "=1+1"), ("s", "+49 30"))
    assert "<f>" not in parts["xl/worksheets/sheet1.xml"]
    assert 'quotePrefix="1"' in parts["xl/styles.xml"]


def test_figures_have_the_decimals_of_the_page_and_days_a_format() -> None:
    styles = _parts(SHEET)["xl/styles.xml"]
    assert "#,##0.00" in styles or 'numFmtId="4"' in styles
    assert "d mmm yyyy hh:mm" in styles
    whole = Sheet(("Jars",), (("1200",),), (True,))
    assert 'formatCode="#,##0"' in _parts(whole)["xl/styles.xml"]


def test_a_column_of_days_and_words_stays_words() -> None:
    mixed = Sheet(("Read",), (("24 Jul 2026",), ("not read",)), (False,))
    assert _cells(_parts(mixed))["A2"] == ("s", "24 Jul 2026")


def test_heads_stay_in_view_and_the_sheet_has_the_table_s_name() -> None:
    parts = _parts(SHEET, "Drums: on hand [all] " + "x" * 40)
    assert 'state="frozen"' in parts["xl/worksheets/sheet1.xml"]
    assert 'sheet name="Drums on hand all xxxxxxxxxxxxx"' in parts["xl/workbook.xml"]
    assert _parts(Sheet((), ()), "*")["xl/workbook.xml"].count('sheet name="Table"') == 1


def test_the_same_sheet_is_the_same_bytes() -> None:
    assert workbook_bytes(SHEET, "Drums", NOW) == workbook_bytes(SHEET, "Drums", NOW)
