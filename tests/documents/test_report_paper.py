"""A report on paper: nothing of its words is left out, however narrow the column."""

from honeyledger.documents.report_paper import report_pdf
from honeyledger.services.report_tables import Report, ReportTable, code, figure, name
from tests.support import printing

LONG = "Honey is missing: look for a leak, a drum nobody wrote down, or a scale that reads low."


def _report(rows: int = 1, *, ticks: bool = False) -> Report:
    row = (printing.code("R", 1), LONG, "1 234.5 kg")
    columns = (code("run"), name("look first", 3), figure("in"))
    tables = (
        ReportTable("out", "Out of the usual", columns, (row,) * rows, ("all", "", "9 kg")),
        ReportTable("none", "Weather", columns, (), none="Nothing was noted."),
    )
    facts = (("Season", "2026"),)
    return Report(
        "Losses 2026",
        printing.HOUSE,
        "1 84EDABD03458",
        facts,
        ("By the books.",),
        tables,
        ticks,
        ("Read by",),
    )


def _words(report: Report) -> str:
    text = printing.text_of(report_pdf(report, printing.typefaces()))
    return " ".join(text.replace("- ", "-").split())


def test_all_words_of_a_narrow_column_are_there() -> None:
    words = _words(_report())
    for said in (*LONG.split(), "Losses 2026", "By the books.", "Nothing was noted.", "Read by"):
        assert said in words, said
    assert printing.code("R", 1) in words


def test_rows_of_several_lines_go_over_pages() -> None:
    pages = _words(_report(60))
    assert "Page 3 of" in pages
    assert pages.count("missing:") == 60
    assert report_pdf(_report(ticks=True), printing.typefaces()) != report_pdf(
        _report(), printing.typefaces()
    )
