"""The dock as the kit builds it: a form, and the arrivals of the day."""

from dataclasses import dataclass
from datetime import date

from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, DateField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import MassField, TextField
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.wedge import Wedge


@dataclass(frozen=True, slots=True)
class ArrivalRow:
    """A pull as it stands in the table of arrivals."""

    code: str
    mark: Mark
    state: str
    yard: str
    time: str
    supers: int
    honey_kg: int
    moisture: str


ARRIVALS = (
    ArrivalRow("S26-0416-7", Mark.READY, "ready", "Coulee Bend", "13:58", 40, 688, "17.1"),
    ArrivalRow("S26-0415-9", Mark.READY, "ready", "Tamarack Rise", "11:20", 40, 655, "16.8"),
    ArrivalRow("S26-0414-B", Mark.WARNING, "dry first", "Tamarack Rise", "11:12", 38, 629, "18.3"),
    ArrivalRow("S26-0413-D", Mark.HOLD, "hold", "Osier Ford", "09:41", 40, 702, "17.3"),
)

COLUMNS: tuple[Column[ArrivalRow], ...] = (
    Column("code", "Pull", lambda row: row.code, ColumnKind.CODE, sort_key=lambda row: row.code),
    Column("state", "State", lambda row: row.state, ColumnKind.STATE, mark=lambda row: row.mark),
    Column("yard", "Yard", lambda row: row.yard, ColumnKind.NAME, sort_key=lambda row: row.yard),
    Column("time", "Time", lambda row: row.time, ColumnKind.NUMBER, from_width=600),
    Column("supers", "Supers", lambda row: str(row.supers), ColumnKind.NUMBER),
    Column(
        "honey",
        "Honey",
        lambda row: str(row.honey_kg),
        ColumnKind.NUMBER,
        unit="kg",
        estimated=lambda _row: True,
        from_width=600,
        sort_key=lambda row: row.honey_kg,
    ),
    Column(
        "moisture", "Moist.", lambda row: row.moisture, ColumnKind.NUMBER, unit="%", from_width=600
    ),
)

YARDS = (
    Choice("Y14", "Coulee Bend", "56 colonies"),
    Choice("Y09", "Tamarack Rise", "64 colonies"),
    Choice("Y22", "Osier Ford", "40 colonies"),
)
CREWS = (Choice("north", "North truck"), Choice("south", "South truck"))
BOXES = (Choice("m9", "Medium, 9 frames"), Choice("d9", "Deep, 9 frames"))


class DockPage(QWidget):
    """Five columns of form, seven of arrivals."""

    def __init__(self, today: date) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self.form_panel = self._form_panel(today)
        self.arrivals = self._arrivals_panel()
        column.addWidget(
            Spread(
                [
                    Part(self.form_panel, "Receive supers", 5, 4),
                    Part(self.arrivals, "Arrivals", 7, 4),
                ]
            )
        )

    def _form_panel(self, today: date) -> Panel:
        panel = Panel("Receive supers")
        self.slot = panel.add_slot("Scan the pull sheet of the first yard.")
        self.yard = ChoiceField("Yard: scan its pull sheet", YARDS)
        self.pulled = DateField("Pulled", today)
        self.crew = ChoiceField("Crew", CREWS)
        self.supers = CountField("Supers")
        self.box = ChoiceField("Box", BOXES)
        self.gross = MassField("Gross")
        self.capped = TextField("Capped", unit="%")
        self.moisture = TextField("Moisture", unit="%")
        self.form = Form()
        self.form.add_row((self.yard, 1))
        self.form.add_row((self.pulled, 1), (self.crew, 1))
        self.form.add_row((self.supers, 10), (self.box, 17))
        self.form.add_row((self.gross, 24), (self.capped, 15), (self.moisture, 15))
        panel.set_body(self.form)
        bar = panel.add_bar(wide_primary=True)
        self.receive = bar.add_primary("Receive and print pallet tag")
        self.form.finish_with(self.receive)
        self.slot.show_messages(
            [Message(Mark.WARNING, "Above 18 %.", "Tag it dry first: wet honey ferments.")]
        )
        return panel

    def _arrivals_panel(self) -> Panel:
        panel = Panel("166 of 206 supers of the North truck are in")
        self.table = Table(
            COLUMNS,
            lambda row: row.code,
            empty="Nothing received today. Scan a pull sheet, or press F2.",
            plan=TablePlan(foot_height=71),
            sorts_itself=True,
        )
        figures = KeyFigures()
        figures.show_figures(
            "Coulee Bend this season",
            [
                KeyFigure("2\u202f940 kg", "52.5 kg a colony"),
                KeyFigure("171 supers", "3.1 a colony"),
                KeyFigure("17.2 %", "mean moisture"),
            ],
            Wedge(44, mean=True),
        )
        self.table.set_above_foot(figures)
        self.table.show_rows(ARRIVALS)
        self.table.show_totals(
            "Today",
            {"supers": Total("412"), "honey": Total("6\u202f912"), "moisture": Total("17.1")},
        )
        panel.set_body(self.table)
        return panel

    def begin(self) -> None:
        """Fill it as a crew would have half way through."""
        self.yard.set_key("Y14")
        self.pulled.set_day(date(2026, 7, 24))
        self.crew.set_key("north")
        self.supers.set_value(36)
        self.box.set_key("m9")
        self.gross.show_scale("874.5")
        self.capped.set_text("92")
        self.moisture.set_text("18.4")
        self.supers.take_focus()
        self.table.select("S26-0416-7")
