"""Charts as plain data: what is drawn, what is said of each point, and the same as a table.

Three forms serve every chart of the program: bars by name, dots (or lines) over days, and columns
in order, stacked where they have parts. Values are already in the unit that is shown.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.domain.units import GRAMS_A_POUND, MassUnit, format_mass


class ChartForm(Enum):
    """How a chart is drawn."""

    BARS = "bars"
    DOTS = "dots"
    COLUMNS = "columns"


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a bar or column, or a dot: its series, and its value."""

    series: int
    value: float


@dataclass(frozen=True, slots=True)
class ChartItem:
    """One thing that can be walked to: a bar, a column, or the dots of one moment.

    Args:
        key: what tells it from the others; a row of the table has the same.
        name: stands at the bar or under the column.
        spoken: all of it in a sentence, for the line under the chart, tips and screen readers.
        cells: the same as a row of the table, under the chart's heads.
        parts: what is drawn.
        at: where it stands across, in days; 0 for what only has an order.
        words: stands at a bar's end.
        behind: the lowest and the highest of earlier seasons.
        is_open: whether it is not complete yet.
        pfund_mm: the honey it is drawn as; None for what is no honey.
        opens: the code of the card that Enter opens, "" where there is none.
    """

    key: str
    name: str
    spoken: str
    cells: tuple[str, ...]
    parts: tuple[Part, ...] = ()
    at: float = 0.0
    words: str = ""
    behind: tuple[float, float] | None = None
    is_open: bool = False
    pfund_mm: float | None = None
    opens: str = ""

    @property
    def top(self) -> float:
        """How far its parts reach above nothing."""
        return sum(part.value for part in self.parts if part.value > 0)

    @property
    def bottom(self) -> float:
        """How far they reach below."""
        return sum(part.value for part in self.parts if part.value < 0)


@dataclass(frozen=True, slots=True)
class Spread:
    """How far the readings of some days lie apart, in days and in values."""

    first: float
    last: float
    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class Level:
    """A line at a value: its words, and `short` at the line itself."""

    value: float
    words: str = ""
    short: str = ""


@dataclass(frozen=True, slots=True)
class ChartHead:
    """The head of a column of the table.

    Args:
        under: words that stand in small under the first column's, since a table beside a chart
            has no room for more than one column of them.
    """

    title: str
    unit: str = ""
    is_number: bool = True
    estimated: bool = False
    from_width: int = 0
    under: bool = False


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart.

    Args:
        form: how it is drawn.
        title: what it shows; a screen reader says it first.
        measure, unit: what its values are and their unit, at the axis.
        heads: of the table form.
        series: the names of the parts, where there are several.
        zero: whether the axis begins at nothing, as it does for all but dots.
        joined: whether the dots of a series are joined by its stroke.
        counted: whether bars are as long as their figures; else each is a swatch of its series
            before its words, and nothing stands at the axis.
        behind, spread: what the band behind and the spread of a week are, in words.
        empty: what is said where there is nothing to draw.
        totals: the foot of the table: its first words, then a figure under each head.
    """

    form: ChartForm
    title: str
    measure: str
    unit: str
    heads: tuple[ChartHead, ...]
    items: tuple[ChartItem, ...] = ()
    series: tuple[str, ...] = ()
    spreads: tuple[Spread, ...] = ()
    levels: tuple[Level, ...] = ()
    zero: bool = True
    joined: bool = False
    counted: bool = True
    behind: str = ""
    spread: str = ""
    empty: str = ""
    totals: tuple[str, ...] = ()

    def place_of(self, key: str) -> int | None:
        """Which item has a key; None where none has."""
        return next((at for at, item in enumerate(self.items) if item.key == key), None)

    @property
    def axis(self) -> str:
        """What stands at the axis of the values."""
        return f"{self.measure}, {self.unit}" if self.unit else self.measure


def chart_columns(chart: Chart) -> tuple[Column[ChartItem], ...]:
    """A chart as a table: the first head names, the others are figures or words."""
    first, *others = [_column(at, head) for at, head in enumerate(chart.heads) if not head.under]
    under = [at for at, head in enumerate(chart.heads) if head.under]
    if under:
        first = replace(first, note=lambda item: _under(item, under))
    return (first, *others)


def paper_columns(chart: Chart) -> tuple[Column[ChartItem], ...]:
    """The same on paper, which has room: what stands under a name has a column of its own."""
    heads = tuple(replace(head, under=False) for head in chart.heads)
    return chart_columns(replace(chart, heads=heads))


def _under(item: ChartItem, under: Sequence[int]) -> str:
    return " · ".join(item.cells[at] for at in under if item.cells[at])


def _column(at: int, head: ChartHead) -> Column[ChartItem]:
    kind = ColumnKind.NUMBER if head.is_number else ColumnKind.TEXT if at else ColumnKind.NAME
    return Column(
        column_key(at, head),
        head.title,
        lambda item: item.cells[at],
        kind,
        unit=head.unit,
        estimated=(lambda item: bool(item.cells[at])) if head.estimated else None,
        from_width=head.from_width,
        least=96,
    )


def column_key(at: int, head: ChartHead) -> str:
    """What a column is called by: two charts share an order only where they share a head."""
    return f"{at} {head.title}"


def drawn_mass(grams: int, unit: MassUnit) -> float:
    """A mass as it is drawn, in the house's unit."""
    return grams / (float(GRAMS_A_POUND) if unit == "lb" else 1_000.0)


def about_mass(grams: int, unit: MassUnit) -> str:
    """An estimated mass at a bar's end or a line."""
    return f"≈\u202f{format_mass(grams, unit, 1)}"


def as_lines(chart: Chart, items: Sequence[ChartItem]) -> str:
    """Heads and figures as text a spreadsheet takes from the clipboard."""
    heads = "\t".join(f"{head.title} {head.unit}".strip() for head in chart.heads)
    rows = ["\t".join(cell.replace("\t", " ") for cell in item.cells) for item in items]
    return "\n".join([heads, *rows]) + "\n"
