"""QR codes: what they hold, their size, and what is refused."""

import pytest
import zxingcpp
from PIL import Image

from honeyledger.documents.symbols import dots_a_module, make_symbol
from honeyledger.domain.refusals import Refusal
from tests.support import printing


def _picture(symbol_text: str, mask: int | None = None) -> Image.Image:
    symbol = make_symbol(symbol_text, mask)
    side = symbol.modules_with_quiet
    picture = Image.new("L", (side, side), 255)
    for column, row, length in symbol.runs:
        picture.paste(0, (column + 4, row + 4, column + 4 + length, row + 5))
    return picture.resize((side * 4, side * 4), 0)


@pytest.mark.parametrize(
    ("text", "modules"),
    # ISO/IEC 18004: versions 1 to 4 hold 20, 38, 61 and 90 alphanumeric characters at level M.
    [
        ("D26-0611-Y", 21),
        ("J26-0147-00382-F", 21),
        ("A" * 20, 21),
        ("A" * 21, 25),
        ("A" * 38, 25),
        ("A" * 39, 29),
        ("A" * 61, 29),
        ("A" * 62, 33),
        ("A" * 90, 33),
    ],
)
def test_the_smallest_version_that_holds_the_text_is_taken(text: str, modules: int) -> None:
    assert make_symbol(text).modules == modules


@pytest.mark.parametrize(
    ("text", "level"),
    # ISO/IEC 18004: version 1 holds 10 alphanumeric characters at level H, 16 at Q; version 3
    # holds 35 and 47.
    [
        ("D26-0611-Y", "H"),
        ("A" * 11, "Q"),
        ("J26-0147-00382-F", "Q"),
        ("A" * 17, "M"),
        ("A" * 39, "Q"),
        ("A" * 48, "M"),
        ("A" * 311, "M"),
    ],
)
def test_what_room_is_left_goes_to_more_correction(text: str, level: str) -> None:
    """As another reader says, which is told nothing of it."""
    (found,) = zxingcpp.read_barcodes(_picture(text))
    assert (found.text, found.ec_level) == (text, level)


@pytest.mark.parametrize("mask", [None, 0, 1, 2, 3, 4, 5, 6, 7])
def test_every_mask_reads_the_same(mask: int | None) -> None:
    assert printing.read(_picture("J26-0147-00382-F", mask)) == ["J26-0147-00382-F"]


def test_the_mask_is_told_so_that_it_can_be_used_again() -> None:
    best = make_symbol("D26-0611-Y")
    assert make_symbol("D26-0611-Y", best.mask) == best


@pytest.mark.parametrize("text", ["d26-0611-y", "HTTPS://HONEY.EXAMPLE/J?17=261231", "Ü", ""])
def test_signs_beyond_the_alphanumeric_set_are_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        make_symbol(text)
    assert refused.value.text == (
        f"A label's QR code cannot hold {text}: use capitals, figures and . - / : only."
    )


@pytest.mark.parametrize("length", [312, 5000])
def test_a_text_too_long_is_refused(length: int) -> None:
    """Version 10 holds 311 alphanumeric characters at level M (ISO/IEC 18004)."""
    assert make_symbol("A" * 311, 0).modules == 57
    with pytest.raises(Refusal) as refused:
        make_symbol("A" * length, 0)
    assert refused.value.text == (
        f"{'A' * length} is too long for a label's QR code: use a shorter web address."
    )


@pytest.mark.parametrize(
    ("room_mm", "dots_per_inch", "dots"),
    [
        (40.0, 203, 8),  # no larger than 1 mm: 7.99 dots, so 8 would be 1.001 mm
        (12.0, 203, 3),
        (20.0, 203, 5),
        (10.0, 300, 4),
        (7.5, 300, 3),
        (10.0, 600, 8),
    ],
)
def test_modules_are_as_large_as_the_room_allows(
    room_mm: float, dots_per_inch: int, dots: int
) -> None:
    symbol = make_symbol("D26-0611-Y")
    found = dots_a_module(symbol, room_mm, dots_per_inch, 1.002)
    assert found == dots
    assert found * symbol.modules_with_quiet * 25.4 / dots_per_inch <= room_mm


@pytest.mark.parametrize(("dots_per_inch", "needed"), [(203, "10.9"), (300, "7.4"), (600, "7.4")])
def test_too_small_a_room_is_refused(dots_per_inch: int, needed: str) -> None:
    """Three dots a module at least, and a quarter of a millimetre on finer printers."""
    with pytest.raises(Refusal) as refused:
        dots_a_module(make_symbol("D26-0611-Y"), 7.0, dots_per_inch, 1.0)
    assert refused.value.text == (
        f"The code of D26-0611-Y needs {needed} mm and the label has 7.0 mm for it: take a "
        "larger label, a finer printer or a shorter web address."
    )
