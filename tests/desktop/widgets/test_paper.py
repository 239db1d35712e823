"""On paper a page is light, whole, and the same whatever the window wears meanwhile."""

from collections.abc import Callable
from dataclasses import replace

import pypdfium2
from PySide6.QtCore import QThreadPool
from PySide6.QtGui import QImage

from honeyledger.desktop import look, tokens
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Part
from honeyledger.desktop.models.paper import Paper, cells_of
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.widgets.paper import pdf_of_all, png_of
from tests.desktop.gallery_trace import graph

CODES = [f"Y26-{number:04}-A" for number in range(120)]
COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Yard", lambda row: row, ColumnKind.CODE),
    Column("state", "State", lambda _row: "heel", ColumnKind.STATE, mark=lambda _row: Mark.HEEL),
    Column("name", "Name", lambda row: f"Yard {row[4:8]}", ColumnKind.NAME, strong=True),
    Column("lots", "Lots", lambda _row: ", ".join(CODES[:20])),
    Column("grams", "Of it", lambda row: str(int(row[4:8])), ColumnKind.NUMBER, unit="g"),
)


def _paper(count: int) -> Paper:
    return Paper(
        ("Where D26-0611-Y comes from", "2 yards."),
        graph(),
        COLUMNS,
        cells_of(COLUMNS, CODES[:count]),
        "2 yards",
        (("grams", Total("4 711")),),
        "Hill House · head 1317 9A04928291D3",
    )


def _charted(count: int) -> Paper:
    items = tuple(
        ChartItem(code, f"Yard {at}", code, (code,), (Part(0, at + 1.0),), words=f"{at + 1} kg")
        for at, code in enumerate(CODES[:count])
    )
    heads = (ChartHead("Yard", is_number=False),)
    chart = Chart(ChartForm.BARS, "Honey", "Honey a colony", "kg", heads, items)
    return replace(_paper(count), river=None, chart=chart)


def _words(data: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(data)
    try:
        width, height = document[0].get_size()
        assert width > height
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


def _elsewhere(task: Callable[[], object]) -> None:
    """Done in a thread that is not the window's."""
    pool = QThreadPool()
    pool.start(task)  # type: ignore[call-overload]
    assert pool.waitForDone(30_000)


def test_every_row_is_printed_with_river_totals_head_and_page(dressed: object) -> None:
    told: list[tuple[int, int]] = []
    pages = _words(pdf_of_all([_paper(60)], lambda done, of: told.append((done, of))))
    assert told == [(number + 1, len(pages)) for number in range(len(pages))]
    assert "px = " in pages[0]
    assert "2 yards." in pages[0]
    whole = "\n".join(pages)
    assert all(code in whole for code in CODES[:60])
    assert whole.count(CODES[19]) >= 60, "long words are broken into lines, and no code is cut"
    assert "4 711" in pages[-1]
    assert all("head 1317 9A04928291D3" in page for page in pages)
    assert f"page 2 of {len(pages)}" in pages[1]


def test_a_picture_has_river_and_rows_and_says_what_it_leaves_out(dressed: object) -> None:
    small, large = (QImage.fromData(png_of(_paper(count))) for count in (3, 120))
    assert small.width() == large.width() == 2800
    assert large.height() > small.height()
    assert small.pixelColor(2, 2).name().upper() == tokens.PAPER


def test_a_chart_is_printed_whole_with_its_axis_and_every_bar(dressed: object) -> None:
    paper = _charted(30)
    (first, *_) = _words(pdf_of_all([paper], lambda _done, _of: None))
    assert "Honey a colony, kg" in first
    assert all(f"Yard {at}" in first and f"{at + 1} kg" in first for at in range(30))
    picture = QImage.fromData(png_of(paper))
    assert picture.height() > QImage.fromData(png_of(replace(paper, chart=None))).height()


def test_beside_the_window_it_is_painted_light_and_the_same(dressed: object) -> None:
    here = png_of(_paper(3))
    look.change(to=tokens.DARK)
    there: list[bytes] = []
    _elsewhere(lambda: there.append(png_of(_paper(3))))
    assert look.theme() is tokens.DARK, "the window stays as it was"
    assert QImage.fromData(here) == QImage.fromData(there[0])


def test_two_columns_of_many_words_share_the_room(dressed: object) -> None:
    """Notes and lots of one customer: were one of them broken word by word, a row took a page."""
    many = ", ".join(CODES[:40])
    columns: tuple[Column[str], ...] = (
        Column("name", "Name", lambda row: row, ColumnKind.NAME),
        Column("notes", "Notes", lambda _row: many),
        Column("lots", "Lots", lambda _row: many + ", and more"),
    )
    rows = ["Corner Shop", "Mill Bakery", "Hill Stores"]
    paper = Paper(("Who has it",), None, columns, cells_of(columns, rows))
    assert len(_words(pdf_of_all([paper], lambda _done, _of: None))) == 1
