"""A trace as the kit builds it: the answer, the river, the table of yards."""

from dataclasses import dataclass
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
    river_graph,
)
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.divider import Divider
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.river import River
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table

HEADS = {
    "yard": RiverColumn("Yards", "5 sites, colonies set 2 to 9 Jun"),
    "pull": RiverColumn("Pulls", "25 to 30 Jul 2026"),
    "fill": RiverColumn("Tank fills", "27 Jul to 1 Aug 2026"),
    "drum": RiverColumn("Drums", "28 Jul to 2 Aug 2026"),
    "jar": RiverColumn("Jars", "9 Sep 2026"),
}

WHOLE_G = 320_000


def _node(key: str, kind: str, mass_g: int, mm: float, label: str = "", **more: Any) -> RiverNode:
    return RiverNode(key, kind, label or key, mass_g, pfund_mm=mm, **more)


def graph() -> RiverGraph:
    """Five yards, one of them only through a heel."""
    nodes = [
        _node("Y14", "yard", 46_700, 41, "Coulee Bend"),
        _node("Y09", "yard", 195_800, 32, "Tamarack Rise"),
        _node("Y22", "yard", 30_700, 55, "Osier Ford"),
        _node("Y31", "yard", 44_200, 22, "Sedge Hollow"),
        _node("Y27", "yard", 2_600, 30, "Linden Bench", is_named=True),
        _node("S26-0424-7", "pull", 46_700, 40),
        _node("S26-0423-9", "pull", 104_000, 33),
        _node("S26-0420-F", "pull", 91_800, 33),
        _node("S26-0418-3", "pull", 30_700, 50),
        _node("S26-0419-1", "pull", 44_200, 24),
        _node("S26-0417-5", "pull", 2_600, 30),
        _node("T26-0101-S", "fill", 212_800, 35),
        _node("T26-0098-L", "fill", 107_200, 38),
        _node("T26-0100-U", "fill", 32_100, 28, note="heel of tank 1"),
        _node("D26-0657-6", "drum", 212_800, 36),
        _node("D26-0641-M", "drum", 67_200, 39),
        _node("D26-0642-K", "drum", 40_000, 39),
        _node("J26-0147", "jar", WHOLE_G, 37, details=("1 to 640",)),
    ]
    ribbons = [
        ("Y14", "S26-0424-7", 46_700),
        ("Y09", "S26-0423-9", 104_000),
        ("Y09", "S26-0420-F", 91_800),
        ("Y22", "S26-0418-3", 30_700),
        ("Y31", "S26-0419-1", 44_200),
        ("Y27", "S26-0417-5", 2_600),
        ("S26-0424-7", "T26-0101-S", 46_700),
        ("S26-0423-9", "T26-0101-S", 104_000),
        ("S26-0420-F", "T26-0101-S", 30_000),
        ("S26-0420-F", "T26-0098-L", 61_800),
        ("S26-0418-3", "T26-0098-L", 30_700),
        ("S26-0419-1", "T26-0098-L", 14_700),
        ("S26-0419-1", "T26-0100-U", 29_500),
        ("S26-0417-5", "T26-0100-U", 2_600),
        ("T26-0101-S", "D26-0657-6", 212_800),
        ("T26-0098-L", "D26-0641-M", 67_200),
        ("T26-0098-L", "D26-0642-K", 40_000),
        ("D26-0657-6", "J26-0147", 212_800),
        ("D26-0641-M", "J26-0147", 67_200),
        ("D26-0642-K", "J26-0147", 40_000),
    ]
    made = [RiverRibbon(*one) for one in ribbons]
    made.append(RiverRibbon("T26-0100-U", "T26-0101-S", 32_100, heel=True))
    return river_graph(HEADS, nodes, made, WHOLE_G)


@dataclass(frozen=True, slots=True)
class YardRow:
    """A yard in the reach."""

    code: str
    heel: bool
    name: str
    place: str
    pulled: str
    forage: str
    treatments: str
    share: str
    grams: str


YARDS = (
    YardRow("Y09", False, "Tamarack Rise", "bench over Coulee road", "28, 30 Jul 2026",
            "clover, alfalfa", "oxalic acid, 14 Apr 2026", "61.2", "306"),
    YardRow("Y14", False, "Coulee Bend", "south of Mill Slough", "30 Jul 2026",
            "sweet clover, thistle", "none this season", "14.6", "73"),
    YardRow("Y31", False, "Sedge Hollow", "Section 22, east gate", "26 Jul 2026",
            "canola", "formic acid, 3 Sep 2025", "13.8", "69"),
    YardRow("Y22", False, "Osier Ford", "river flat, north bank", "25 Jul 2026",
            "willowherb, aster", "oxalic acid, 12 Apr 2026", "9.6", "48"),
    YardRow("Y27", True, "Linden Bench", "terrace at Ferry Lane", "29 Jul 2026",
            "linden", "oxalic acid, 15 Apr 2026", "0.8", "4"),
)  # fmt: skip

COLUMNS: tuple[Column[YardRow], ...] = (
    Column("code", "Yard", lambda row: row.code, ColumnKind.CODE),
    Column(
        "state",
        "State",
        lambda row: "heel only" if row.heel else "direct",
        ColumnKind.STATE,
        mark=lambda row: Mark.HEEL if row.heel else Mark.READY,
    ),
    Column("name", "Name", lambda row: row.name, ColumnKind.NAME, strong=True),
    Column("place", "Place", lambda row: row.place, from_width=1100),
    Column("pulled", "Pulled", lambda row: row.pulled, from_width=700),
    Column("forage", "Forage", lambda row: row.forage, from_width=900),
    Column("treatments", "Treatments on record", lambda row: row.treatments, from_width=1000),
    Column(
        "share",
        "Share",
        lambda row: row.share,
        ColumnKind.NUMBER,
        unit="%",
        sort_key=lambda row: float(row.share),
    ),
    Column("grams", "In this jar", lambda row: row.grams, ColumnKind.NUMBER, unit="g"),
)


class TracePage(QWidget):
    """Twelve columns: the answer, the river, the table."""

    def __init__(self) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        answer = Answer()
        answer.show_answer(
            "Where jar J26-0147-00382-F comes from: serials 1 to 640 of the run, "
            "filled from the same drums, 500 g each, 320.0 kg",
            "5 yards. 61.2 % from Tamarack Rise. One yard only through a heel.",
        )
        self.river = River()
        self.river.show_graph(graph())
        self.table = Table(COLUMNS, lambda row: row.code, density=Density.DESK, sorts_itself=True)
        self.table.show_rows(YARDS)
        self.table.show_totals(
            "5 yards", {"share": Total("100.0", "%"), "grams": Total("500", "g")}
        )
        self.table.say_rows()
        panel = Panel(density=Density.DESK)
        panel.set_body(Divider(self.river, self.table, upper_least=248))
        bar = panel.add_bar()
        bar.add_secondary("Print trace")
        bar.add_grave("Open a recall")
        slot = MessageSlot(density=Density.DESK, tall=True, ground="well")
        slot.show_messages(
            [
                Message(
                    Mark.READY,
                    "Nothing in this trace is on hold.",
                    "A recall first lists what follows; nothing is sent before you sign.",
                )
            ]
        )
        bar.set_side(slot)
        column.addWidget(Spread([Part(panel, "Trace", 12, 8)], above=answer))
        self.table.selected.connect(self.river.select)
        self.river.selected.connect(self.table.select)

    def begin(self) -> None:
        """The largest yard is chosen."""
        self.table.select("Y09")
