"""What all labels promise: they scan, stay on their label, and are the same bytes every time."""

import hashlib
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

import pypdfium2
import pytest

from honeyledger.documents import labels
from honeyledger.documents.stock import LEAST_MM, Printer, Stock, plain_printer, stock_of
from honeyledger.domain.refusals import Refusal
from honeyledger.services.papers import JarLabel
from tests.support import printing

PRINTS: dict[str, tuple[Callable[..., bytes], Any]] = {
    labels.PALLET_TAG: (labels.pallet_tags, printing.pallet_tag()),
    labels.DRUM_LABEL: (labels.drum_labels, printing.drum_label()),
    labels.JAR_LABEL: (labels.jar_labels, printing.jar_label()),
    labels.YARD_CODE: (labels.yard_codes, printing.yard_tag()),
    labels.BADGE: (labels.badges, printing.badge()),
    labels.PACK_LABEL: (labels.pack_labels, printing.pack_label()),
}
ALL = [(kind, stock.name) for kind in PRINTS for stock in printing.stocks().fitting(kind)]

# A badge and a case carry their plain code only: those QR codes are for this house alone.
PLAIN = (labels.BADGE, labels.PACK_LABEL)
LINKED = [(*one, link) for one in ALL for link in (False, True) if not link or one[0] not in PLAIN]


def _print(kind: str, stock: str | Stock, dots_per_inch: int = 0, **changes: Any) -> bytes:
    if not changes:
        return _plain(kind, stock, dots_per_inch)
    return _drawn(kind, stock, dots_per_inch, changes)


@cache
def _plain(kind: str, stock: str | Stock, dots_per_inch: int) -> bytes:
    """Several tests look at the same print."""
    return _drawn(kind, stock, dots_per_inch, {})


def _drawn(kind: str, stock: str | Stock, dots_per_inch: int, changes: Mapping[str, Any]) -> bytes:
    draw, row = PRINTS[kind]
    stock = printing.stocks().named(stock) if isinstance(stock, str) else stock
    printer = plain_printer(stock, dots_per_inch)
    return draw([replace(row, **changes)], stock, printer, printing.typefaces())


def _page_height(pdf: bytes) -> float:
    with pypdfium2.PdfDocument(pdf) as document:
        return float(document[0].get_height())


# The coarsest printer each time; the other with all that is long.
@pytest.mark.parametrize("dots_per_inch", [203, pytest.param(300, marks=pytest.mark.full)])
@pytest.mark.parametrize(("kind", "stock", "with_uri"), LINKED)
def test_every_label_is_read_back_with_ink_right_outside_its_quiet_zone(
    kind: str, stock: str, dots_per_inch: int, with_uri: bool
) -> None:
    """Four quiet modules: ISO/IEC 18004. At least three whole dots a module: the house's rule."""
    wanted = printing.jar_uri(382) if with_uri else PRINTS[kind][1].code
    link = {"uri": wanted} if with_uri else {}
    pdf = _print(kind, stock, dots_per_inch, **link)
    placed = printing.placed_symbols(pdf)[0]
    dot = 72 / dots_per_inch
    dots = placed.module / dot
    assert dots == pytest.approx(round(dots), abs=1e-4)
    assert round(dots) >= 3
    height = _page_height(pdf)
    assert placed.x / dot == pytest.approx(round(placed.x / dot), abs=1e-3)
    from_top = (height - placed.y) / dot - placed.side * round(dots)
    assert from_top == pytest.approx(round(from_top), abs=1e-3)

    symbol = printing.cut_out(printing.raster(pdf, dots_per_inch), height, dots_per_inch, placed)
    modules = symbol.resize((placed.side, placed.side), 0)
    # Every module is one colour over all its dots: enlarged again it is the same picture.
    assert modules.resize(symbol.size, 0).tobytes() == symbol.tobytes()
    quiet = printing.QUIET
    inner = modules.crop((quiet, quiet, placed.side - quiet, placed.side - quiet))
    bare = modules.copy()
    bare.paste(255, (quiet, quiet, placed.side - quiet, placed.side - quiet))
    assert bare.getextrema() == (255, 255)
    assert inner.getpixel((0, 0)) == 0
    assert printing.read_with_ink_around(symbol) == [wanted]


@pytest.mark.parametrize(("kind", "stock"), ALL)
def test_the_whole_printed_page_is_read_as_it_is(kind: str, stock: str) -> None:
    pdf = _print(kind, stock, 300)
    assert printing.read(printing.raster(pdf, 300)) == [PRINTS[kind][1].code]


@pytest.mark.parametrize(("kind", "stock"), ALL)
def test_the_code_stands_in_type_with_its_qr(kind: str, stock: str) -> None:
    text = printing.text_of(_print(kind, stock))
    assert PRINTS[kind][1].code in text.replace("- ", "-")


LONG = "Upper Wolverhampstead-on-the-Marsh behind the old railway station, second gate on the left"
LONG_PLACES = {
    labels.PALLET_TAG: {
        "house": LONG,
        "condition": LONG,
        "pulls": tuple(replace(pull, name=LONG) for pull in printing.pallet_tag().pulls) * 6,
    },
    labels.DRUM_LABEL: dict.fromkeys(("house", "heading", "forage", "origin", "colour"), LONG),
    labels.JAR_LABEL: {"us_dual": True, "origin": "Origin: Canada 62 %, Argentina 38 %"},
    labels.YARD_CODE: {"name": LONG, "place": LONG, "house": LONG},
    labels.BADGE: {"name": LONG, "role": LONG, "house": LONG},
    labels.PACK_LABEL: {
        "house": LONG,
        "place": LONG,
        "contents": tuple(replace(one, product=LONG) for one in printing.pack_label().contents)
        * 9,
    },
}


@pytest.mark.parametrize("is_long", [False, True])
@pytest.mark.parametrize(("kind", "stock"), ALL)
def test_no_text_leaves_its_label_or_touches_other_text_or_the_qr(
    kind: str, stock: str, is_long: bool
) -> None:
    changes = LONG_PLACES[kind] if is_long else {}
    pdf = _print(kind, stock, **changes)
    sheet = printing.stocks().named(stock)
    height = _page_height(pdf)
    left, top = (length * 72 / 25.4 for length in (sheet.left_mm, sheet.top_mm))
    right = left + sheet.width_mm * 72 / 25.4
    bottom = height - top - sheet.height_mm * 72 / 25.4
    taken = printing.placed_bars(pdf)
    for placed in printing.placed_symbols(pdf):
        side = placed.side * placed.module
        taken.append((placed.x, placed.y, placed.x + side, placed.y + side))
    boxes = printing.text_boxes(pdf)
    assert boxes
    for box in boxes:
        assert left + 3 < box[0] < box[2] < right - 3, box
        assert bottom + 3 < box[1] < box[3] < height - top - 3, box
        for other in taken:
            apart = (
                box[2] <= other[0] + 0.01
                or other[2] <= box[0] + 0.01
                or box[3] <= other[1] + 0.01
                or other[3] <= box[1] + 0.01
            )
            assert apart, (box, other)
        taken.append(box)


@pytest.mark.parametrize(("kind", "stock"), ALL)
def test_pages_have_exactly_the_size_of_the_paper(kind: str, stock: str) -> None:
    sheet = printing.stocks().named(stock)
    # ISO 216; ANSI/ASME Y14.1.
    papers = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
    wanted = papers.get(sheet.paper, (sheet.width_mm, sheet.height_mm))
    assert printing.page_sizes_mm(_print(kind, stock)) == [pytest.approx(wanted, abs=0.002)]


def _sheet_of(count: int, stock: str, first_cell: int = 1, **printer: Any) -> bytes:
    sheet = printing.stocks().named(stock)
    rows = [printing.jar_label(serial) for serial in range(count)]
    used = replace(plain_printer(sheet), **printer)
    return labels.jar_labels(rows, sheet, used, printing.typefaces(), first_cell=first_cell)


def test_a_sheet_carries_many_each_with_its_own_code_in_reading_order() -> None:
    pdf = _sheet_of(30, "a4-24-70x37")
    assert len(printing.page_sizes_mm(pdf)) == 2
    found = []
    height = _page_height(pdf)
    for number, placed in enumerate(printing.placed_symbols(pdf)):
        image = printing.raster(pdf, 300, page=number // 24)
        found += printing.read_with_ink_around(printing.cut_out(image, height, 300, placed))
    assert found == [printing.jar_label(serial).code for serial in range(30)]


def test_a_sheet_already_begun_is_gone_on_with() -> None:
    whole = printing.placed_symbols(_sheet_of(24, "a4-24-70x37"))
    begun = printing.placed_symbols(_sheet_of(3, "a4-24-70x37", first_cell=23))
    assert begun == [whole[22], whole[23], whole[0]]
    assert len(printing.page_sizes_mm(_sheet_of(3, "a4-24-70x37", first_cell=23))) == 2


def test_a_roll_carries_one_label_a_page() -> None:
    pdf = _sheet_of(3, "roll-70x40")
    assert printing.page_sizes_mm(pdf) == [pytest.approx((70, 40), abs=0.002)] * 3


def test_labels_follow_the_printer_as_measured() -> None:
    """One that prints 101 mm for 100 and 1 mm too far left lands where a true one does."""
    true = printing.placed_symbols(_sheet_of(24, "a4-24-70x37"))
    corrected = printing.placed_symbols(
        _sheet_of(24, "a4-24-70x37", shift_x_mm=1.0, measured_y_mm=101.0)
    )
    dot = 72 / 300
    for before, after in zip(true, corrected, strict=True):
        assert after.x - 1.0 * 72 / 25.4 == pytest.approx(before.x, abs=dot)
        down, printed = (842 - one.y - one.side * one.module for one in (before, after))
        inside = 3 * 72 / 25.4  # the label itself is not stretched, only its place
        assert (printed - inside) * 1.01 == pytest.approx(down - inside, abs=3 * dot)
        assert after.module == before.module


def test_the_same_labels_are_the_same_bytes_in_this_process_and_in_another() -> None:
    first = _sheet_of(30, "a4-24-70x37")
    _print(labels.DRUM_LABEL, "roll-100x150")
    assert _sheet_of(30, "a4-24-70x37") == first
    program = (
        "import hashlib, tests.documents.test_labels as t;"
        "print(hashlib.sha256(t._sheet_of(30, 'a4-24-70x37')).hexdigest())"
    )
    other = subprocess.run(
        [sys.executable, "-c", program],
        cwd=printing.RESOURCES.parent,
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONHASHSEED": "7"},
    )
    assert other.stdout.strip() == hashlib.sha256(first).hexdigest()


def test_a_different_code_gives_different_bytes() -> None:
    assert _print(labels.JAR_LABEL, "roll-70x40") != _print(
        labels.JAR_LABEL, "roll-70x40", code=printing.jar_label(383).code
    )


def test_print_dialogs_are_asked_not_to_scale() -> None:
    assert b"/PrintScaling /None" in _print(labels.JAR_LABEL, "a4-24-70x37")


def test_labels_are_taken_one_by_one_as_they_come() -> None:
    taken: list[int] = []

    def rows() -> Iterator[JarLabel]:
        for serial in range(3):
            taken.append(serial)
            yield printing.jar_label(serial)
        raise LookupError("the bottling ends here")

    stock = printing.stocks().named("roll-70x40")
    with pytest.raises(LookupError):
        labels.jar_labels(rows(), stock, plain_printer(stock), printing.typefaces())
    assert taken == [0, 1, 2]


def test_nothing_to_print_is_refused() -> None:
    stock = printing.stocks().named("roll-70x40")
    with pytest.raises(Refusal) as refused:
        labels.jar_labels([], stock, plain_printer(stock), printing.typefaces())
    assert refused.value.text == "There is nothing to print: name at least one code."


@pytest.mark.parametrize(
    ("kind", "stock"), [(labels.BADGE, "roll-100x150"), (labels.JAR_LABEL, "roll-100x150")]
)
def test_a_stock_for_another_kind_is_refused(kind: str, stock: str) -> None:
    with pytest.raises(Refusal) as refused:
        _print(kind, stock)
    assert refused.value.text == (
        f"Label stock {stock} does not carry a {kind}: choose a stock that does."
    )


def test_other_paper_than_the_stocks_is_refused() -> None:
    stock = printing.stocks().named("a4-24-70x37")
    with pytest.raises(Refusal) as refused:
        labels.jar_labels(
            [printing.jar_label()], stock, Printer("Office", "letter", 300), printing.typefaces()
        )
    assert refused.value.text == (
        "Label stock a4-24-70x37 is for A4 paper, but printer Office has Letter paper: choose a "
        "stock for Letter paper, or put A4 paper in the printer and set it so."
    )
    assert refused.value.field == "stock"


@pytest.mark.parametrize("stock", ["a4-24-70x37", "letter-10-101.6x50.8"])
def test_the_alignment_page_has_100_mm_lines_both_ways_and_says_how_to_print(stock: str) -> None:
    sheet = printing.stocks().named(stock)
    pdf = labels.alignment_page(sheet, plain_printer(sheet), printing.typefaces())
    assert len(printing.page_sizes_mm(pdf)) == 1
    assert "Print at 100 %, not fitted to the page." in printing.text_of(pdf)
    image = printing.raster(pdf, 300)
    assert _longest_run(image) == pytest.approx(100 / 25.4 * 300, abs=4)
    assert _longest_run(image.transpose(2)) == pytest.approx(100 / 25.4 * 300, abs=4)


@pytest.mark.parametrize("kind", [kind for kind in LEAST_MM if kind in PRINTS])
def test_a_label_of_the_least_size_has_room_for_what_usually_stands_on_it(kind: str) -> None:
    """A house's own stock of that size is offered for it; what is too long is refused by name."""
    wide, high = LEAST_MM[kind]
    stock = stock_of("Own", {"paper": "roll", "width_um": wide * 1000, "height_um": high * 1000})
    assert kind in stock.kinds
    draw, row = PRINTS[kind]
    printed = draw([row], stock, plain_printer(stock), printing.typefaces())
    assert printing.read(printing.raster(printed, 203)) == [row.code]


SHIPPED = [printing.stocks().named(name) for name in printing.stocks().names]
TRUE_MM = 0.1


def _corners_mm(stock: Stock, printer: Printer) -> list[tuple[float, float]]:
    """The upper left corner of each label, as its marks lie in the PDF."""
    strokes = printing.strokes_mm(labels.alignment_page(stock, printer, printing.typefaces()))
    return [strokes[number * 10][:2] for number in range(stock.cells)]


@pytest.mark.parametrize("stock", SHIPPED, ids=lambda stock: stock.name)
def test_every_label_of_every_shipped_stock_lies_where_its_sizes_say(stock: Stock) -> None:
    found = _corners_mm(stock, plain_printer(stock))
    for number, corner in enumerate(found):
        row, column = divmod(number, stock.columns)
        wanted = (
            stock.left_mm + column * stock.pitch_x_mm,
            stock.top_mm + row * stock.pitch_y_mm,
        )
        assert corner == pytest.approx(wanted, abs=TRUE_MM)


@pytest.mark.parametrize("kind", PRINTS)
def test_whole_sheets_of_labels_lie_as_the_alignment_page_has_them(kind: str) -> None:
    """Text lies exactly; a symbol goes to the nearest dot of the printer, 0.04 mm off at most."""
    for stock in printing.stocks().fitting(kind):
        draw, row = PRINTS[kind]
        printer = plain_printer(stock)
        pdf = draw([row] * stock.cells, stock, printer, printing.typefaces())
        found = [(one.x / 72 * 25.4, one.y / 72 * 25.4) for one in printing.placed_symbols(pdf)]
        corners = _corners_mm(stock, printer)
        each = 2 if kind == labels.PACK_LABEL else 1
        assert len(found) == stock.cells * each
        found = found[::each]
        for corner, symbol in zip(corners, found, strict=True):
            across, up = symbol[0] - found[0][0], found[0][1] - symbol[1]
            moved = corner[0] - corners[0][0], corner[1] - corners[0][1]
            assert (across, up) == pytest.approx(moved, abs=TRUE_MM)


@pytest.mark.parametrize("stock", SHIPPED, ids=lambda stock: stock.name)
def test_a_shift_moves_everything_on_the_page_by_just_that(stock: Stock) -> None:
    plain = plain_printer(stock)
    moved = replace(plain, shift_x_mm=1.3, shift_y_mm=-0.7)
    faces = printing.typefaces()
    before, after = (
        printing.strokes_mm(labels.alignment_page(stock, printer, faces))
        for printer in (plain, moved)
    )
    assert len(before) == len(after) > 8
    for line, shifted in zip(before, after, strict=True):
        by = [there - here for here, there in zip(line, shifted, strict=True)]
        assert by == pytest.approx([1.3, -0.7, 1.3, -0.7], abs=0.005)


@pytest.mark.parametrize("stock", SHIPPED, ids=lambda stock: stock.name)
def test_the_control_lines_measure_what_they_say(stock: Stock) -> None:
    """A shift or a pitch put in must not change them: they are what is measured."""
    for printer in (
        plain_printer(stock),
        replace(plain_printer(stock), shift_x_mm=0.4, measured_x_mm=101.0, measured_y_mm=99.5),
    ):
        strokes = printing.strokes_mm(labels.alignment_page(stock, printer, printing.typefaces()))
        across, down = (max(line[at + 2] - line[at] for line in strokes) for at in (0, 1))
        wide, high = stock.page_mm
        wanted = [
            100 if min(wide, high) > 120 else min(100, int(side - 10) // 10 * 10)
            for side in (wide, high)
        ]
        assert (across, down) == pytest.approx(wanted, abs=0.01)


_INK = re.compile(rb"[^\xff]+")


def _longest_run(image: Any) -> int:
    width, _ = image.size
    rows = image.tobytes()
    return max(
        len(run)
        for start in range(0, len(rows), width)
        for run in _INK.findall(rows, start, start + width)
    )


@pytest.mark.parametrize("kind", [labels.PALLET_TAG, labels.DRUM_LABEL])
def test_tags_and_drum_labels_carry_the_ledgers_head(kind: str) -> None:
    for stock in printing.stocks().fitting(kind):
        printed = printing.text_of(_print(kind, stock, head="1317 AD3D2EB1ADCB"))
        assert "Ledger 1317 AD3D2EB1ADCB" in printed
