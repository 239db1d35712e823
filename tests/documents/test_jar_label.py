"""What stands on a jar's label, how large, and what it may not be without."""

import re
from dataclasses import replace
from typing import Any

import pypdfium2
import pytest
from reportlab.pdfbase.ttfonts import TTFontFile

from honeyledger.documents.jar_label import LEAST_PT
from honeyledger.documents.labels import jar_labels
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.label_content import PANEL, HeightRule
from honeyledger.domain.label_content import TEXT as LETTERS
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.standards import Mark
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.services.papers import INFANT_CAUTION, JarLabel
from tests.support import printing

STOCKS = [stock.name for stock in printing.stocks().fitting("jar label")]


def _print(
    rows: list[JarLabel] | None = None, stock: str = "a4-24-70x37", **changes: Any
) -> bytes:
    sheet = printing.stocks().named(stock)
    rows = rows or [printing.jar_label(**changes)]
    return jar_labels(rows, sheet, plain_printer(sheet), printing.typefaces())


def _refused(**changes: Any) -> str:
    with pytest.raises(Refusal) as refused:
        _print(**changes)
    return refused.value.text


@pytest.mark.parametrize("stock", STOCKS)
def test_every_label_says_all_it_must(stock: str) -> None:
    jar = printing.jar_label()
    text = printing.text_of(_print(stock=stock)).replace("- ", "-")
    for said in (jar.product, "500 g", jar.producer, jar.place, jar.best_before, jar.origin):
        assert said in text, said
    # Directive 2011/91/EU, article 3: the lot is preceded by L.
    assert f"L {jar.lot}" in text
    assert INFANT_CAUTION in text


@pytest.mark.parametrize("stock", STOCKS)
def test_the_caution_about_infants_is_on_every_single_label(stock: str) -> None:
    rows = [printing.jar_label(serial) for serial in range(50)]
    assert printing.text_of(_print(rows, stock)).count(INFANT_CAUTION) == 50


@pytest.mark.parametrize("caution", ["", "  ", "\n"])
def test_a_label_without_the_caution_is_refused(caution: str) -> None:
    assert _refused(caution=caution) == (
        "A jar label carries the caution about infants under one year: put it in your own words, "
        "but do not leave it empty."
    )


def test_a_label_without_the_caution_is_refused_among_others_too() -> None:
    rows = [printing.jar_label(1), printing.jar_label(2, caution="")]
    with pytest.raises(Refusal, match="carries the caution"):
        _print(rows)


def test_the_caution_may_be_in_the_houses_language() -> None:
    said = "Nicht geeignet für Kinder unter einem Jahr."
    assert said in printing.text_of(_print(caution=said))


def test_ounces_and_pounds_stand_beside_the_metric_content_where_wanted() -> None:
    text = printing.text_of(_print(us_dual=True))
    assert text.index("500 g") < text.index("17.6 oz (1 lb 1.6 oz)")
    assert "oz" not in printing.text_of(_print())


def test_what_is_not_given_is_left_out() -> None:
    text = printing.text_of(_print(best_before="", origin=""))
    assert "Best before" not in text
    assert "Origin" not in text


def test_several_products_can_stand_on_one_sheet() -> None:
    rows = [
        printing.jar_label(1),
        printing.jar_label(2, product="Buckwheat honey", net_g=1000),
        printing.jar_label(3, uri=printing.jar_uri(3)),
        printing.jar_label(4),
    ]
    pdf = _print(rows)
    text = printing.text_of(pdf)
    assert text.count("Clover and basswood honey") == 3
    assert text.count("Buckwheat honey 1 kg") == 1
    height = 297 * 72 / 25.4
    image = printing.raster(pdf, 300)
    read = [
        printing.read_with_ink_around(printing.cut_out(image, height, 300, placed))[0]
        for placed in printing.placed_symbols(pdf)
    ]
    assert read == [rows[0].code, rows[1].code, rows[2].uri, rows[3].code]


def test_what_the_jars_share_is_drawn_only_once() -> None:
    pdf = _print([printing.jar_label(serial) for serial in range(24)])
    # Form XObjects: one for the bottling, whatever the number of jars.
    assert len(re.findall(rb"/Subtype /Form", pdf)) == 1


@pytest.mark.parametrize("stock", STOCKS)
def test_a_jar_more_takes_less_than_three_kilobytes(stock: str) -> None:
    """With a web address in its code, which is the larger symbol."""
    rows = [printing.jar_label(at, uri=printing.jar_uri(at)) for at in range(48)]
    few, many = (len(_print(rows[:jars], stock)) for jars in (24, 48))
    assert 100 < (many - few) / 24 < 3_000


def _sizes(pdf: bytes) -> dict[str, float]:
    """The font size in points of the first sign of each line on the first page."""
    with pypdfium2.PdfDocument(pdf) as document:
        text = document[0].get_textpage()
        whole = text.get_text_range()
        found: dict[str, float] = {}
        at = 0
        for line in whole.split("\r\n"):
            if line:
                found[line] = pypdfium2.raw.FPDFText_GetFontSize(text, at)
            at += len(line) + 2
        return found


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize("net_g", [40, 125, 500, 1000, 3000])
def test_type_is_never_smaller_than_the_law_has_it(stock: str, net_g: int) -> None:
    """Small x by EU 1169/2011, figures of the net content by 76/211/EEC; values from memory."""
    least_figure_mm = {40: 2, 125: 3, 500: 4, 1000: 4, 3000: 6}[net_g]
    face = TTFontFile(str(printing.RESOURCES / "fonts" / "HoneyledgerSans-Regular.ttf"))
    assert face.capHeight == 698
    sizes = _sizes(_print(stock=stock, net_g=net_g))
    net = "3 kg" if net_g == 3000 else "1 kg" if net_g == 1000 else f"{net_g} g"
    assert sizes[net] * 0.698 * 25.4 / 72 >= least_figure_mm - 0.01
    assert min(sizes.values()) >= LEAST_PT - 0.01
    assert pytest.approx(1.2) == LEAST_PT * 0.516 * 25.4 / 72


def test_a_long_name_wraps_and_shrinks() -> None:
    name = "Sonnenblumenblütenhonigspezialität aus den Flussauen, kaltgeschleudert, fein gerührt"
    assert name in printing.text_of(_print(product=name))


def test_more_text_than_the_label_holds_is_refused() -> None:
    place = "12 Mill Road, behind the old railway station, Eastbrook, " * 4
    assert _refused(place=place.strip()) == (
        f'Label stock a4-24-70x37 has no room for all of the text: shorten "{place.strip()}", or '
        "take a larger label."
    )


@pytest.mark.parametrize("field", ["product", "producer", "place", "best_before", "origin"])
def test_a_sign_the_typeface_lacks_is_refused_wherever_it_stands(field: str) -> None:
    assert _refused(**{field: "Honey 蜜"}).startswith(
        'Labels and papers cannot print "蜜" (cjk unified ideograph-871c, U+871C) in '
    )


def test_a_web_address_too_long_for_the_label_is_refused() -> None:
    uri = "HTTPS://HONEY.EXAMPLE/" + "LONG/" * 50
    assert _refused(uri=uri, stock="roll-70x40").startswith(f"The code of {uri} needs ")
    lower = "https://honey.example"
    assert _refused(uri=lower) == (
        f"A label's QR code cannot hold {lower}: use capitals, figures and . - / : only."
    )


MARKETS = {one.key: one for one in shipped_markets(printing.RESOURCES / "labels" / "content")}
LARGE = "letter-6-101.6x84.7"


@pytest.mark.parametrize(
    ("market", "cm2", "least_x_mm", "least_figure_mm"),
    [
        # The sources stand beside each rule in resources/labels/content.
        ("eu", 79, 1.2, 4.0),  # 0.9 would do; the house's own floor is 1.2
        ("eu", 80, 1.2, 4.0),
        ("uk", 100, 1.2, 4.0),
        ("canada", 30, 1.6, 4.0),
        ("canada", 258, 1.6, 4.0),
        ("canada", 259, 1.6, 6.4),
        ("us", 30, 1.59, 1.59),
        ("us", 110, 1.59, 3.18),
    ],
)
def test_type_is_as_high_as_each_market_asks_by_its_panel(
    market: str, cm2: int, least_x_mm: float, least_figure_mm: float
) -> None:
    us = market == "us"
    heights = MARKETS[market].heights
    sizes = _sizes(_print(stock=LARGE, us_first=us, heights=heights, panel_mm2=cm2 * 100.0))
    net = next(line for line in sizes if ("Net Wt" if us else "500 g") in line)
    assert sizes[net] * (0.516 if us else 0.698) * 25.4 / 72 >= least_figure_mm - 0.01
    assert min(size for size in sizes.values()) >= LEAST_PT - 0.01
    said = next(line for line in sizes if line.startswith("Best") or "Best before" in line)
    for line in (said, printing.HOUSE, INFANT_CAUTION):
        assert sizes[line] * 0.516 * 25.4 / 72 >= least_x_mm - 0.01, line


def test_what_nobody_saw_gives_way_where_there_is_no_room_and_what_was_seen_does_not() -> None:
    high = HeightRule(LETTERS, PANEL, ((None, 3.0),), Mark.FROM_MEMORY, "memory", "2026")
    assert INFANT_CAUTION in printing.text_of(_print(heights=(high,)))
    with pytest.raises(Refusal, match="has no room for all of the text"):
        _print(heights=(replace(high, mark=Mark.SEEN),))


def test_grading_storage_and_the_houses_words_are_printed() -> None:
    more = {"grading": "Canada No. 1 · White · Liquid", "storage": "Keep dry and cool."}
    text = printing.text_of(_print(stock=LARGE, texts=("Return this jar.",), **more))
    for said in (*more.values(), "Return this jar."):
        assert said in text


def test_ounces_stand_first_in_the_united_states() -> None:
    text = printing.text_of(_print(stock=LARGE, us_first=True, us_dual=True, net_g=340))
    assert "Net Wt 12 oz (340 g)" in text
    assert text.count("oz") == 1
