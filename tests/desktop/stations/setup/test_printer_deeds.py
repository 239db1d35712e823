"""A station's printers and where labels go, as their forms say them."""

import pytest

from honeyledger.desktop.stations.setup.printer_deeds import (
    each_time,
    printer_kind,
    printer_said,
    printer_values,
    stocks_for,
    ways_kind,
    ways_said,
    ways_values,
)
from honeyledger.documents.printers import ASK_EACH_TIME, StationPapers, Way
from honeyledger.documents.stock import Printer
from honeyledger.domain.refusals import Refusal
from tests.support.printing import stocks

ROLL = Printer("Roll", "roll", 300, 0.4, -0.3, 100.0, 99.6)


def test_a_printer_is_shown_as_it_was_typed() -> None:
    values = printer_values(StationPapers().with_printer(ROLL), "Roll")
    assert values == {
        "name": "Roll",
        "paper": "roll",
        "dots_per_inch": "300",
        "shift_x_mm": "0.4",
        "shift_y_mm": "-0.3",
        "measured_x_mm": "100",
        "measured_y_mm": "99.6",
    }
    assert printer_said(values) == ROLL
    assert printer_values(StationPapers(), "Roll") is None
    assert set(values) == {ask.key for ask in printer_kind().asks}
    assert printer_said({"name": "New"}) == Printer("New", "roll", 203)


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("name", "", "Choose a printer of this computer: what it prints is kept by its name."),
        (
            "measured_x_mm",
            "95",
            "A length of 95.0 mm for the 100 mm line is no fine correction: print at 100 %, then "
            "measure again (97 to 103 mm).",
        ),
        ("shift_y_mm", "left", "left is not a shift in mm: type it in digits, such as 0.3."),
    ],
)
def test_what_no_printer_needs_is_refused(key: str, text: str, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        printer_said({"name": "Roll", key: text})
    assert (refused.value.field, refused.value.text) == (key, said)


def test_ways_are_kept_and_shown_again() -> None:
    papers = StationPapers().with_printer(ROLL)
    typed = {ask.key: "" for ask in ways_kind().asks}
    typed |= {"tags_printer": "Roll", "tags_stock": "roll-100x60", "badges_printer": each_time()}
    typed["sheets_printer"] = "Office"
    ways = ways_said(typed, papers, stocks())
    assert ways["tags"] == Way("Roll", "roll-100x60")
    assert ways["badges"] == Way(ASK_EACH_TIME, "")
    assert ways["sheets"] == Way("Office")
    with_both = {"tags": Way("Roll", "roll-100x60"), "badges": Way(ASK_EACH_TIME)}
    with_both["sheets"] = Way("Office")
    assert ways_values(papers.with_ways(with_both)) == typed


def test_notes_and_lists_may_be_asked_about_each_time() -> None:
    ways = ways_said({"sheets_printer": each_time()}, StationPapers(), stocks())
    assert ways["sheets"] == Way(ASK_EACH_TIME)
    assert ways_values(StationPapers().with_ways(ways))["sheets_printer"] == each_time()


def test_a_stock_on_other_paper_than_the_printers_is_refused_at_its_field() -> None:
    papers = StationPapers().with_printer(ROLL)
    typed = {"labels_printer": "Roll", "labels_stock": "a4-24-70x37"}
    with pytest.raises(Refusal) as refused:
        ways_said(typed, papers, stocks())
    assert refused.value.field == "labels_stock"
    with pytest.raises(Refusal) as refused:
        ways_said({"labels_stock": "roll-100x150"}, papers, stocks())
    assert refused.value.field == "labels_stock"
    assert refused.value.text.startswith("Label stock roll-100x150 does not carry a jar label")


def test_only_what_carries_a_label_is_offered_for_it() -> None:
    assert "roll-70x40" in stocks_for("labels_stock", stocks())
    assert "roll-70x40" not in stocks_for("tags_stock", stocks())
    assert "roll-100x60" in stocks_for("tags_stock", stocks())
