"""What stands on a badge."""

import pytest

from honeyledger.documents.labels import badges
from honeyledger.documents.stock import Stock, plain_printer
from tests.support import printing


@pytest.mark.parametrize("sheet", printing.stocks().fitting("badge"), ids=lambda stock: stock.name)
def test_a_badge_has_name_work_house_and_code(sheet: Stock) -> None:
    rows = [printing.badge(), printing.badge(role="")]
    text = printing.text_of(badges(rows, sheet, plain_printer(sheet), printing.typefaces()))
    assert text.count(printing.code("O", 3)) == 2
    assert text.count("Ann Reed") == 2
    assert text.count(printing.HOUSE) == 2
    assert text.count("extracts, drives") == 1
