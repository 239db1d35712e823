"""Closing a run as the kit builds it: what went in, what came out, what it ties together."""

from dataclasses import dataclass

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.balance_bars import BalanceBars, BalancePiece, PieceKind
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.balance import Balance
from honeyledger.desktop.widgets.figures import Answer, KeyFigure, KeyFigures
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.text import body
from honeyledger.desktop.widgets.twin_tables import TwinTables


@dataclass(frozen=True, slots=True)
class InRow:
    """A pull or a heel that went in."""

    code: str
    yard: str
    supers: str
    honey: str
    heel: str = ""


@dataclass(frozen=True, slots=True)
class OutRow:
    """A drum, cappings or the heel that came out."""

    code: str
    moisture: str
    pfund_mm: float | None
    net: str
    aside: str = ""


@dataclass(frozen=True, slots=True)
class TieRow:
    """A yard in the run, and what would be recalled with it."""

    yard: str
    share: str
    drums: str
    heel: str = ""


WENT_IN = (
    InRow("S26-0415-9", "Tamarack Rise", "40", "655"),
    InRow("S26-0414-B", "Tamarack Rise", "38", "629"),
    InRow("S26-0416-7", "Coulee Bend", "40", "688"),
    InRow("T26-0092-X", "heel in tank 2", "", "38", "Osier Ford, Linden Bench"),
)
CAME_OUT = (
    OutRow("D26-0611-Y", "17.1", 39, "300.5"),
    OutRow("D26-0612-W", "17.0", 39, "301.0"),
    OutRow("D26-0613-U", "17.2", 40, "300.0"),
    OutRow("D26-0614-S", "17.1", 40, "302.5"),
    OutRow("D26-0615-Q", "17.3", 41, "299.5"),
    OutRow("D26-0617-M", "17.2", None, "301.5"),
    OutRow("Cappings, barrel 4", "", None, "133.5", "weighed later"),
    OutRow("Heel left in tank 2", "", None, "42.0", "by dip"),
)
TIES = (
    TieRow("Tamarack Rise", "63.9", "6 drums"),
    TieRow("Coulee Bend", "34.2", "6 drums"),
    TieRow("Osier Ford", "1.2", "6 + 11 drums", "heel, 24 kg of 38"),
    TieRow("Linden Bench", "0.7", "6 + 11 drums", "heel, 14 kg of 38"),
)

BARS = BalanceBars(
    "In, by estimate, and out, by scale",
    (
        BalancePiece("Tamarack Rise", "≈ 1\u202f284", 1_284_000, 35),
        BalancePiece("Coulee Bend", "≈ 688", 688_000, 41),
        BalancePiece("heel", "38", 38_000, 40, PieceKind.HEEL),
    ),
    (
        BalancePiece("0611", "300.5", 300_500, 39, is_code=True),
        BalancePiece("0612", "301.0", 301_000, 39, is_code=True),
        BalancePiece("0613", "300.0", 300_000, 40, is_code=True),
        BalancePiece("0614", "302.5", 302_500, 40, is_code=True),
        BalancePiece("0615", "299.5", 299_500, 41, is_code=True),
        BalancePiece("0617", "301.5", 301_500, 41, is_code=True),
        BalancePiece("cappings", "≈ 133.5", 133_500, 40, PieceKind.CAPPINGS),
        BalancePiece("heel", "42.0", 42_000, 40, PieceKind.HEEL),
    ),
    "Estimates ran high by 29.5 kg",
    "Lost between weighed points: 0.0 kg",
)

IN_COLUMNS: tuple[Column[InRow], ...] = (
    Column("code", "Went in", lambda row: row.code, ColumnKind.CODE),
    Column(
        "yard",
        "Yard",
        lambda row: row.yard,
        ColumnKind.NAME,
        note=lambda row: row.heel,
        mark=lambda row: Mark.HEEL if row.heel else None,
    ),
    Column("supers", "Supers", lambda row: row.supers, ColumnKind.NUMBER),
    Column(
        "honey",
        "Honey",
        lambda row: row.honey,
        ColumnKind.NUMBER,
        unit="kg",
        note=lambda row: "by dip" if row.heel else "",
        estimated=lambda row: not row.heel,
    ),
)
OUT_COLUMNS: tuple[Column[OutRow], ...] = (
    Column("code", "Came out", lambda row: row.code, ColumnKind.CODE, aside=lambda row: row.aside),
    Column("moisture", "Moist.", lambda row: row.moisture, ColumnKind.NUMBER, unit="%"),
    Column(
        "colour", "Colour", kind=ColumnKind.COLOUR, unit="Pfund mm", pfund_mm=lambda r: r.pfund_mm
    ),
    Column(
        "net",
        "Net",
        lambda row: row.net,
        ColumnKind.NUMBER,
        unit="kg",
        estimated=lambda row: row.aside == "weighed later",
    ),
)
TIE_COLUMNS: tuple[Column[TieRow], ...] = (
    Column(
        "yard",
        "Yard",
        lambda row: row.yard,
        ColumnKind.NAME,
        note=lambda row: row.heel,
    ),
    Column("share", "Share", lambda row: row.share, ColumnKind.NUMBER, unit="%"),
    Column(
        "drums",
        "Would recall",
        lambda row: row.drums,
        note=lambda row: "with T26-0092-X" if row.heel else "",
    ),
)


class ClosingPage(QWidget):
    """Eight columns of balance, four of ties."""

    def __init__(self) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        answer = Answer()
        answer.show_answer(
            "Extraction: close run R26-0093-U",
            "In by estimate 2\u202f010 kg, out by scale 1\u202f980.5 kg. "
            "Estimates ran 1.5 % high; this house’s usual is 6 %.",
        )
        parts = [
            Part(self._sheet(), "Run sheet", 8, 8),
            Part(self._ties(), "What this run ties together", 4, 8),
        ]
        column.addWidget(Spread(parts, above=answer))

    def _sheet(self) -> Panel:
        panel = Panel()
        self.went_in = Table(IN_COLUMNS, lambda row: row.code, plan=TablePlan("Went in", 40, 40))
        self.came_out = Table(
            OUT_COLUMNS, lambda row: row.code, plan=TablePlan("Came out", 40, 40)
        )
        self.came_out.set_spans(lambda row: 3 if row.aside else 1)
        figures = KeyFigures()
        figures.show_figures(
            "Against the pull sheets",
            [
                KeyFigure("118", "of 118 supers"),
                KeyFigure("3", "of 3 pallets empty"),
                KeyFigure("0", "scans in doubt"),
            ],
        )
        self.went_in.set_above_foot(figures)
        self.went_in.show_rows(WENT_IN)
        self.went_in.show_totals(
            "In", {"supers": Total("118"), "honey": Total("2\u202f010", "kg", estimated=True)}
        )
        self.came_out.show_rows(CAME_OUT)
        self.came_out.show_totals("Out", {"net": Total("1\u202f980.5", "kg")})
        self.came_out.say_rows()
        panel.set_body(TwinTables(self.went_in, self.came_out))
        self.balance = Balance()
        self.balance.show_bars(BARS)
        panel.add_part(self.balance, padded=True)
        bar = panel.add_bar()
        self.sign = bar.add_primary("Sign and close run")
        bar.add_secondary("Print run sheet")
        bar.add_plain("Reweigh a drum")
        return panel

    def _ties(self) -> Panel:
        panel = Panel("What this run ties together")
        self.ties = Table(TIE_COLUMNS, lambda row: row.yard)
        self.ties.show_rows(TIES)
        self.ties.show_totals(
            "4 yards", {"share": Total("100.0", "%"), "drums": Total("17 drums")}
        )
        panel.set_body(self.ties)
        words = body(
            "Osier Ford and Linden Bench are here only through the heel. Emptied and washed "
            "between runs, the line would have kept these 6 drums apart from those 11.",
            Density.FLOOR,
            wrap=True,
        )
        panel.add_part(words, padded=True)
        figures = KeyFigures()
        figures.show_figures(
            "Pace",
            [
                KeyFigure("36 loads", "of 30 frames"),
                KeyFigure("5 h 10 min", "first to last"),
                KeyFigure("206", "frames an hour"),
            ],
        )
        panel.add_part(figures)
        slot = MessageSlot("Sign, then print the run sheet.", tall=True, ground="well")
        slot.show_messages(
            [Message(Mark.READY, "All six drums weighed.", "Sign, then print the run sheet.")]
        )
        panel.add_part(slot)
        return panel

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self.went_in.fold_columns(*(("supers",) if self.width() < 1440 else ()))

    def begin(self) -> None:
        """Ready to sign."""
        self.sign.setFocus()
