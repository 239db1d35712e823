"""A code that is small is told of, one that has no room is refused; none is shrunk."""

import pytest

from honeyledger.documents.code_size import (
    USUAL_MM,
    USUAL_MODULE_MM,
    code_mm,
    code_warning,
    contrast_warning,
    size_notes,
)
from honeyledger.documents.labels import RETAIL_CODE
from honeyledger.documents.stock import LEAST_MM, Stock, plain_printer, stock_of
from honeyledger.documents.symbols import LEAST_DOTS, LEAST_MODULE_MM
from honeyledger.domain.refusals import Refusal
from honeyledger.services.label_forms import JAR_FRONT, in_form
from tests.support import printing
from tests.support.reading import READ

KINDS = [kind for kind in READ if kind != RETAIL_CODE]


def _least(kind: str, less_mm: int = 0) -> Stock:
    wide, high = (size - less_mm for size in LEAST_MM[kind])
    sizes = {"width_um": wide * 1000, "height_um": high * 1000}
    return stock_of("Own", {"paper": "roll", **sizes})


@pytest.mark.parametrize("kind", KINDS)
def test_every_stock_has_a_code_that_is_large_enough_or_says_that_it_is_not(kind: str) -> None:
    """Shipped or of the least size there is, at the coarsest printer and the finest."""
    for stock in (*printing.stocks().fitting(kind), _least(kind)):
        for dots in (203, 600):
            printer = plain_printer(stock, dots)
            wide, module = code_mm(READ[kind][1], stock, printer, printing.typefaces())
            assert module >= max(LEAST_MODULE_MM, LEAST_DOTS / dots * 25.4) - 1e-9
            told = code_warning(READ[kind][1], stock, printer, printing.typefaces())
            small = round(wide) < USUAL_MM[kind] or module < USUAL_MODULE_MM
            assert (told is not None) == small, (stock.name, wide, module)


@pytest.mark.parametrize("kind", KINDS)
def test_a_label_smaller_than_the_least_is_refused_with_what_it_needs(kind: str) -> None:
    wide, high = LEAST_MM[kind]
    stock = _least(kind, 1)
    with pytest.raises(Refusal) as refused:
        READ[kind][0]([READ[kind][1]], stock, plain_printer(stock), printing.typefaces())
    assert refused.value.text == (
        f"Label stock Own is {wide - 1} × {high - 1} mm, and a {kind} needs {wide} × {high} mm: "
        "take a larger label."
    )
    assert refused.value.field == "stock"


def test_what_is_small_is_said_with_what_is_usual() -> None:
    stock, faces = _least("drum sticker"), printing.typefaces()
    row = READ["drum sticker"][1]
    assert code_warning(row, stock, plain_printer(stock), faces) == (
        "The code is 16 mm wide on label stock Own, and 20 mm are usual on such labels: it is "
        "read from some 16 cm. Take a larger label to read it from farther."
    )
    stock = printing.stocks().named("a4-24-70x37")
    linked = printing.jar_label(uri=printing.jar_uri(382))
    assert code_warning(linked, stock, plain_printer(stock), faces) is None
    long = printing.jar_label(uri=f"HTTPS://HONEY.EXAMPLE/{'A' * 200}")
    assert code_warning(long, stock, plain_printer(stock), faces) == (
        "The code's squares are 0.34 mm on label stock a4-24-70x37: a scanner has to come very "
        "near. Take a larger label, a finer printer or a shorter web address."
    )


def test_a_front_has_no_code_that_could_be_small() -> None:
    (front,) = in_form([printing.jar_label()], JAR_FRONT)
    stock = printing.stocks().named("roll-70x40")
    assert code_mm(front, stock, plain_printer(stock), printing.typefaces()) == (0.0, 0.0)
    assert size_notes([front], stock, plain_printer(stock), printing.typefaces()) == ()
    assert size_notes([], stock, plain_printer(stock), printing.typefaces()) == ()


def _coloured(colour: str) -> Stock:
    sizes = {"width_um": 100_000, "height_um": 150_000}
    return stock_of("Own", {"paper": "roll", "colour": colour, **sizes})


def test_coloured_paper_on_which_a_code_stands_out_little_is_told_of() -> None:
    faces, tag = printing.typefaces(), printing.pallet_tag()
    for colour in ("", "cream", "yellow", "#FFF4D6"):
        stock = _coloured(colour)
        assert contrast_warning(stock) is None
        assert size_notes([tag], stock, plain_printer(stock), faces) == ()
    kraft = _coloured("Kraft")
    assert size_notes([tag], kraft, plain_printer(kraft), faces) == (
        "Label stock Own is kraft: a code stands out on it by 35 %, and scanners want 40. Print "
        "one and scan it before the rest, or take white labels.",
    )
    (front,) = in_form([printing.jar_label()], JAR_FRONT)
    assert size_notes([front], kraft, plain_printer(kraft), faces) == (), "it has no code"


@pytest.mark.parametrize("kind", READ)
def test_no_label_is_printed_on_paper_too_dark_for_it(kind: str) -> None:
    blue = _coloured("blue")
    with pytest.raises(Refusal) as refused:
        READ[kind][0]([READ[kind][1]], blue, plain_printer(blue), printing.typefaces())
    assert refused.value.field == "stock"
    assert refused.value.text == (
        "Label stock Own is blue: black stands out on it by 2 %, and below 20 % no scanner reads "
        "a code. Take white or light labels."
    )


def test_low_bars_of_a_case_are_told_of_with_it() -> None:
    faces = printing.typefaces()
    low, high = (printing.stocks().named(name) for name in ("a4-8-99.1x67.7", "roll-100x150"))
    notes = size_notes([printing.pack_label()], low, plain_printer(low), faces)
    assert [one.partition(" on ")[0] for one in notes] == ["The bars are 18 mm high"]
    assert size_notes([printing.pack_label()], high, plain_printer(high), faces) == ()
    bare = printing.pack_label(sscc="", elements={})
    assert size_notes([bare], low, plain_printer(low), faces) == ()
