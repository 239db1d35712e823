"""The sticker of a drum's lid."""

import pytest

from honeyledger.documents.labels import drum_stickers
from honeyledger.documents.stock import plain_printer
from honeyledger.services.label_forms import DRUM_STICKER, in_form
from tests.support import printing

STOCKS = [stock.name for stock in printing.stocks().fitting(DRUM_STICKER)]


def _print(stock: str, **changes: object) -> bytes:
    sheet = printing.stocks().named(stock)
    rows = in_form([printing.drum_label(**changes)], DRUM_STICKER)
    return drum_stickers(rows, sheet, plain_printer(sheet, 203), printing.typefaces(), unit="kg")


@pytest.mark.parametrize("stock", STOCKS)
def test_it_is_read_and_says_what_is_seen_from_above(stock: str) -> None:
    pdf = _print(stock)
    assert printing.read(printing.raster(pdf, 203)) == [printing.code("D", 611)]
    text = printing.text_of(pdf)
    for said in ("293.2 kg", "Season 2026", "17.4 %", "white", "Hold", printing.HOUSE):
        assert said in text, said


def test_what_is_not_known_yet_is_left_out() -> None:
    text = printing.text_of(_print(STOCKS[0], net_g=None, moisture_hundredths=None))
    assert "kg" not in text
    assert "moisture" not in text


def test_what_is_held_has_its_box_crossed_on_the_lid_too() -> None:
    strokes = [printing.strokes_mm(_print(STOCKS[0], held=one)) for one in ("", "strips")]
    assert len(strokes[1]) == len(strokes[0]) + 2
