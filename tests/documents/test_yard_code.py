"""What stands with a yard's code."""

import pytest

from honeyledger.documents.labels import yard_codes
from honeyledger.documents.stock import plain_printer
from tests.support import printing


@pytest.mark.parametrize("stock", ["roll-100x150", "roll-100x60", "a4-8-99.1x67.7"])
def test_a_yards_code_has_its_name_and_place(stock: str) -> None:
    sheet = printing.stocks().named(stock)
    rows = [printing.yard_tag(), printing.yard_tag(place="")]
    text = printing.text_of(yard_codes(rows, sheet, plain_printer(sheet), printing.typefaces()))
    assert text.count(printing.code("Y", 14)) == 2
    assert text.count("Long Meadow north") == 2
    assert text.count(printing.HOUSE) == 2
    assert text.count("Behind the school") == 1


@pytest.mark.parametrize("stock", ["roll-100x150", "roll-100x60", "a4-8-99.1x67.7"])
def test_a_treated_yard_s_pull_sheet_says_from_which_day(stock: str) -> None:
    sheet = printing.stocks().named(stock)
    due = "Treated with pads, not clear until 30 Sep 2026. Follow the label and your local code."
    rows = [printing.yard_tag(due=due)]
    text = printing.text_of(yard_codes(rows, sheet, plain_printer(sheet), printing.typefaces()))
    assert "not clear until 30 Sep 2026" in " ".join(text.split())
