"""Label stocks and printers: where each label lies on its sheet or roll, for one printer.

A sheet's place is corrected by what the printer was measured to do: a shift of the whole sheet and
a stretch of the pitch, since half a millimetre a row adds up over a sheet.
"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from honeyledger.domain.label_stock import A4, LETTER, PAPERS_UM, ROLL, SHEET, check_stock
from honeyledger.domain.paper_colour import (
    LEAST_PERCENT,
    WHITE,
    contrast_percent,
    parse_paper_colour,
)
from honeyledger.domain.refusals import BrokenRule, Refusal, Sentence

NO_SUCH_STOCK = Sentence("no-such-stock", "There is no label stock {name}: choose one of {names}.")
WRONG_PAPER = Sentence(
    "wrong-paper",
    "Label stock {stock} is for {wanted}, but printer {printer} has {paper}: choose a stock for "
    "{paper}, or put {wanted} in the printer and set it so.",
)
NOT_FOR_KIND = Sentence(
    "not-for-kind", "Label stock {stock} does not carry a {kind}: choose a stock that does."
)
TOO_SMALL = Sentence(
    "label-too-small",
    "Label stock {stock} is {wide} × {high} mm, and a {kind} needs {least_wide} × {least_high} "
    "mm: take a larger label.",
)
TOO_DARK = Sentence(
    "stock-too-dark",
    "Label stock {stock} is {colour}: black stands out on it by {contrast} %, and below {least} % "
    "no scanner reads a code. Take white or light labels.",
)
NO_STOCK_FOR_KIND = Sentence(
    "no-stock-for-kind", "No label stock on {paper} carries a {kind}: choose one of {names}."
)
NO_STOCK_ON_PAPER = Sentence(
    "no-stock-on-paper",
    "No label stock is on {paper}: add yours in Setup, under Label stock, or say what the printer "
    "has.",
)
BAD_RESOLUTION = Sentence(
    "bad-resolution", "{dots} dots an inch is no printer's: choose 203, 300 or 600."
)
BAD_SHIFT = Sentence(
    "bad-shift", "A shift of {shift} mm puts labels off the sheet: give at most 10 mm."
)
BAD_STRETCH = Sentence(
    "bad-stretch",
    "A length of {length} mm for the 100 mm line is no fine correction: print at 100 %, then "
    "measure again (97 to 103 mm).",
)
BAD_FIRST_CELL = Sentence(
    "bad-first-cell",
    "Label stock {stock} has labels 1 to {cells}: begin with one of them, not {first}.",
)

PAPERS = {paper: (wide / 1000, high / 1000) for paper, (wide, high) in PAPERS_UM.items()}
_SAID = {
    A4: "A4 paper",
    LETTER: "Letter paper",
    ROLL: "a label roll",
    SHEET: "sheets of their own size",
}
# The smallest label on which each kind has room for what usually stands on it; a text that is too
# long for one is refused by name when it is printed. Tried, see its test.
LEAST_MM = {
    "pallet tag": (100, 127),
    "drum label": (100, 127),
    "jar label": (60, 37),
    "yard sheet code": (99, 50),
    "badge": (60, 37),
    "case or pallet label": (99, 67),
    "vessel label": (60, 37),
    "equipment tag": (50, 25),
    "sample pot label": (50, 25),
    "drum sticker": (60, 37),
    "jar front": (50, 37),
    "jar back": (60, 37),
    "lid seal": (70, 20),
    "retail code": (50, 30),
}
RESOLUTIONS = (203, 300, 600)


@dataclass(frozen=True, slots=True)
class Printer:
    """One printer as measured.

    Args:
        name: what the house calls it.
        paper: "a4", "letter", "sheet" or "roll".
        dots_per_inch: 203, 300 or 600.
        shift_x_mm: how far to move everything right.
        shift_y_mm: how far to move everything down.
        measured_x_mm: what the test page's level 100 mm line measures on its paper.
        measured_y_mm: what its upright 100 mm line measures.

    Raises:
        Refusal: a measure is beyond a fine correction.
    """

    name: str
    paper: str
    dots_per_inch: int
    shift_x_mm: float = 0.0
    shift_y_mm: float = 0.0
    measured_x_mm: float = 100.0
    measured_y_mm: float = 100.0

    def __post_init__(self) -> None:
        if self.dots_per_inch not in RESOLUTIONS:
            raise Refusal(BAD_RESOLUTION, field="dots_per_inch", dots=self.dots_per_inch)
        for field in ("shift_x_mm", "shift_y_mm"):
            if not abs(getattr(self, field)) <= 10:
                raise Refusal(BAD_SHIFT, field=field, shift=getattr(self, field))
        for field in ("measured_x_mm", "measured_y_mm"):
            if not 97 <= getattr(self, field) <= 103:
                raise Refusal(BAD_STRETCH, field=field, length=getattr(self, field))


@dataclass(frozen=True, slots=True)
class Stock:
    """One label stock; all measures in mm from the sheet's top left corner.

    Args:
        name: its name in the list of stocks.
        paper: "a4", "letter", "sheet" (of its own size) or "roll".
        kinds: the kinds of label it has room for.
        columns: labels side by side.
        rows: labels one under another.
        width_mm: width of one label.
        height_mm: height of one label.
        left_mm: left edge of the first label.
        top_mm: upper edge of the first label.
        pitch_x_mm: from a label's left edge to the next one's.
        pitch_y_mm: from a label's upper edge to the next one's.
        sheet_mm: width and height of a sheet of its own size.
        colour: of its paper, as `paper_colour` reads it.
    """

    name: str
    paper: str
    kinds: tuple[str, ...]
    columns: int
    rows: int
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    pitch_x_mm: float
    pitch_y_mm: float
    sheet_mm: tuple[float, float] = (0.0, 0.0)
    colour: str = WHITE

    @property
    def page_mm(self) -> tuple[float, float]:
        """Width and height of the sheet, or of one label of a roll."""
        if self.paper == SHEET:
            return self.sheet_mm
        return PAPERS.get(self.paper, (self.width_mm, self.height_mm))

    @property
    def cells(self) -> int:
        """How many labels one page carries."""
        return self.columns * self.rows

    def corner_mm(self, cell: int, printer: Printer) -> tuple[float, float]:
        """Where the cell's upper left corner must be drawn so that it lands there on paper."""
        row, column = divmod(cell, self.columns)
        x = self.left_mm + column * self.pitch_x_mm
        y = self.top_mm + row * self.pitch_y_mm
        return (
            x * 100 / printer.measured_x_mm + printer.shift_x_mm,
            y * 100 / printer.measured_y_mm + printer.shift_y_mm,
        )

    def places(self, printer: Printer, first_cell: int = 1) -> Iterator[tuple[bool, float, float]]:
        """Give, without end, the place of each label: whether a page begins, and its corner.

        Args:
            first_cell: the first free label of a sheet already begun, counted from 1 by rows.

        Raises:
            Refusal: the printer holds other paper, or the sheet has no such label.
        """
        if printer.paper != self.paper:
            raise Refusal(
                WRONG_PAPER,
                field="stock",
                stock=self.name,
                wanted=_SAID[self.paper],
                printer=printer.name,
                paper=_SAID.get(printer.paper, printer.paper),
            )
        if not 1 <= first_cell <= self.cells:
            raise Refusal(
                BAD_FIRST_CELL,
                field="first_cell",
                stock=self.name,
                cells=self.cells,
                first=first_cell,
            )
        return self._places(printer, first_cell - 1)

    def _places(self, printer: Printer, cell: int) -> Iterator[tuple[bool, float, float]]:
        begins = True
        while True:
            yield begins, *self.corner_mm(cell, printer)
            cell = (cell + 1) % self.cells
            begins = cell == 0


class Stocks:
    """The label stocks of a file, by name."""

    def __init__(self, stocks: Mapping[str, Stock]) -> None:
        self._stocks = dict(stocks)

    @classmethod
    def load(cls, path: Path) -> "Stocks":
        """Read the stocks from a TOML file: one table a stock."""
        with path.open("rb") as file:
            tables = tomllib.load(file)
        return cls({name: _read(name, table) for name, table in tables.items()})

    def with_own(self, records: Mapping[str, Mapping[str, object]]) -> "Stocks":
        """These and a house's own, which stand in the place of one shipped of that name.

        They come last: which label goes on one is chosen by the person who has it in a printer.
        """
        return Stocks(self._stocks | {n: stock_of(n, record) for n, record in records.items()})

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all stocks."""
        return tuple(self._stocks)

    def named(self, name: str) -> Stock:
        """Find a stock.

        Raises:
            Refusal: there is none of that name.
        """
        if name not in self._stocks:
            raise Refusal(NO_SUCH_STOCK, field="stock", name=name, names=", ".join(self._stocks))
        return self._stocks[name]

    def on_paper(self, paper: str) -> Stock:
        """The first stock on a paper.

        Raises:
            Refusal: there is none.
        """
        for stock in self._stocks.values():
            if stock.paper == paper:
                return stock
        raise Refusal(NO_STOCK_ON_PAPER, field="paper", paper=_SAID.get(paper, paper))

    def fitting(self, kind: str, paper: str = "") -> tuple[Stock, ...]:
        """Give the stocks that carry a kind of label, such as "pallet tag", best first."""
        return tuple(
            stock
            for stock in self._stocks.values()
            if kind in stock.kinds and paper in ("", stock.paper)
        )

    def chosen(self, kind: str, name: str = "", paper: str = "") -> Stock:
        """Find the stock for a kind of label: the one named, else the first that fits the paper.

        Raises:
            Refusal: the stock named is unknown or does not carry this kind, or none fits.
        """
        fitting = self.fitting(kind, paper)
        if name:
            stock = self.named(name)
            if kind in stock.kinds:
                return stock
            raise not_for(stock, kind)
        if not fitting:
            names = ", ".join(one.name for one in self.fitting(kind))
            said = _SAID.get(paper, paper)
            raise Refusal(NO_STOCK_FOR_KIND, field="stock", paper=said, kind=kind, names=names)
        return fitting[0]


def not_for(stock: Stock, kind: str) -> Refusal:
    """Why a stock does not carry a kind of label: it is too small, or meant for other ones."""
    wide, high = LEAST_MM.get(kind, (0, 0))
    if stock.width_mm >= wide and stock.height_mm >= high:
        return Refusal(NOT_FOR_KIND, field="stock", stock=stock.name, kind=kind)
    return Refusal(
        TOO_SMALL,
        field="stock",
        stock=stock.name,
        kind=kind,
        wide=f"{stock.width_mm:g}",
        high=f"{stock.height_mm:g}",
        least_wide=wide,
        least_high=high,
    )


def check_contrast(stock: Stock) -> None:
    """Whether black on a stock's paper stands out enough to be read.

    Raises:
        Refusal: its paper is too dark.
    """
    contrast = contrast_percent(stock.colour)
    if contrast < LEAST_PERCENT:
        raise Refusal(
            TOO_DARK,
            field="stock",
            stock=stock.name,
            colour=stock.colour,
            contrast=contrast,
            least=LEAST_PERCENT,
        )


def plain_printer(stock: Stock, dots_per_inch: int = 0) -> Printer:
    """Make a printer nobody has measured yet: 300 dots an inch for sheets, 203 for rolls."""
    usual = 203 if stock.paper == ROLL else 300
    return Printer("not measured", stock.paper, dots_per_inch or usual)


def stock_of(name: str, record: Mapping[str, object]) -> Stock:
    """A stock of a house's own record, which has its measures in micrometres.

    Raises:
        Refusal: its labels do not lie on its sheet, or its paper has a colour nobody knows.
    """
    check_stock(record)

    def mm(key: str) -> float:
        value = record.get(key, 0)
        return value / 1000 if isinstance(value, int) else 0.0

    def count(key: str) -> int:
        value = record.get(key, 1)
        return value if isinstance(value, int) and record["paper"] != ROLL else 1

    width, height = mm("width_um"), mm("height_um")
    on_roll = record["paper"] == ROLL
    return Stock(
        name=name,
        paper=str(record["paper"]),
        kinds=kinds_for(width, height),
        columns=count("columns"),
        rows=count("rows"),
        width_mm=width,
        height_mm=height,
        left_mm=0.0 if on_roll else mm("left_um"),
        top_mm=0.0 if on_roll else mm("top_um"),
        pitch_x_mm=width + mm("gap_x_um"),
        pitch_y_mm=height + mm("gap_y_um"),
        sheet_mm=(mm("sheet_width_um"), mm("sheet_height_um")),
        colour=parse_paper_colour(str(record.get("colour", ""))),
    )


def kinds_for(width_mm: float, height_mm: float) -> tuple[str, ...]:
    """The kinds of label that a label of this size has room for."""
    return tuple(
        kind
        for kind, (least_wide, least_high) in LEAST_MM.items()
        if width_mm >= least_wide and height_mm >= least_high
    )


def _read(name: str, table: Mapping[str, object]) -> Stock:
    """Build a shipped stock from its table: millimetres there, the record's measures here."""
    record: dict[str, object] = {}
    for key, value in table.items():
        if key == "kinds":
            continue
        if not isinstance(value, str) and not isinstance(value, int | float):
            raise BrokenRule(f"label stock {name}: {key} must be a number")
        if key in ("paper", "colour", "columns", "rows"):
            record[key] = value
        elif isinstance(value, str):
            raise BrokenRule(f"label stock {name}: {key} must be a number")
        else:
            record[f"{key.removesuffix('_mm')}_um"] = round(value * 1000)
    kinds = table["kinds"]
    if not isinstance(kinds, list):
        raise BrokenRule(f"label stock {name}: kinds must be a list")
    return replace(stock_of(name, record), kinds=tuple(str(kind) for kind in kinds))
