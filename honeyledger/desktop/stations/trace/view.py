"""The trace page: the answer, the river with its table, or where the honey went."""

from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.trace.presenter import (
    ReachedRow,
    Timed,
    TracePresenter,
    YardRow,
)
from honeyledger.desktop.stations.trace.river_rows import code_of, river_of
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.divider import Divider
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.river import River
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal
from honeyledger.services.trace_page import ForwardPage, TracePage


def _state_mark(row: YardRow) -> Mark:
    if row.only_heel or row.how in ("heel", "margin"):
        return Mark.HEEL
    return Mark.NOTE if row.how in ("late", "amended") else Mark.READY


YARD_COLUMNS: tuple[Column[YardRow], ...] = (
    Column("code", "Yard", lambda row: row.code, ColumnKind.CODE),
    Column("state", "State", lambda row: row.how, ColumnKind.STATE, mark=_state_mark),
    Column("name", "Name", lambda row: row.name, ColumnKind.NAME, strong=True),
    Column("place", "Place", lambda row: row.place, from_width=1100),
    Column("pulled", "Pulled", lambda row: row.pulled, from_width=700),
    Column("forage", "Forage", lambda row: row.forage, from_width=900),
    Column(
        "share",
        "Share",
        lambda row: row.share,
        ColumnKind.NUMBER,
        unit="%",
        sort_key=lambda row: row.share_value,
    ),
    Column("grams", "In this", lambda row: row.grams, ColumnKind.NUMBER, unit="g"),
)
REACHED_COLUMNS: tuple[Column[ReachedRow], ...] = (
    Column("code", "Code", lambda row: row.code, ColumnKind.CODE),
    Column("where", "Where", lambda row: row.where, ColumnKind.NAME, strong=True),
    Column("lots", "Lots", lambda row: row.lots, from_width=700),
    Column("jars", "Jars", lambda row: row.jars, ColumnKind.NUMBER),
    Column("grams", "Mass", lambda row: row.grams, ColumnKind.NUMBER),
)


class TraceView:
    """The page of the trace. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        self.presenter = TracePresenter(desk)
        self._entries = 0
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        self.answer = Answer()
        self.panel = self._panel()
        column.addWidget(
            Spread([Part(self.panel, self.widget.tr("Trace"), 12, 8)], above=self.answer)
        )
        self._say_empty()
        self.presenter.answered.connect(self.show_timed)
        self.presenter.refused.connect(self.show_refusal)

    def _panel(self) -> Panel:
        tr = self.widget.tr
        panel = Panel(density=Density.DESK)
        self.river = River()
        self.yards = Table(
            YARD_COLUMNS,
            lambda row: row.code,
            density=Density.DESK,
            sorts_itself=True,
            empty=tr("Scan a jar, a drum or a tank fill, or press F2 and type its code."),
        )
        self.reached = Table(
            REACHED_COLUMNS,
            lambda row: f"{row.code} {row.where}",
            density=Density.DESK,
            empty=tr("Nothing of it has gone anywhere yet."),
        )
        self.bodies = QStackedWidget()
        self.divider = Divider(self.river, self.yards)
        self.bodies.addWidget(self.divider)
        self.bodies.addWidget(self.reached)
        panel.set_body(self.bodies)
        bar = panel.add_bar()
        self.turn = bar.add_secondary(tr("Where did it go?"))
        self.print_it = bar.add_secondary(tr("Print trace"))
        self.open_card = bar.add_plain(tr("Open its card"))
        self.slot = MessageSlot(density=Density.DESK, tall=True, ground="well")
        bar.set_side(self.slot)
        self.turn.clicked.connect(self.presenter.turn)
        self.print_it.clicked.connect(self.print_river)
        self.open_card.clicked.connect(self._card)
        self.yards.selected.connect(lambda key: self.river.select(f"from {key}"))
        self.river.selected.connect(lambda key: self.yards.select(code_of(key)))
        self.river.opened.connect(lambda key: self.asks.card.emit(code_of(key)))
        self.river.centred.connect(lambda key: self.presenter.trace(code_of(key)))
        return panel

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard in the river, or in the table where there is none."""
        if self.presenter.forward:
            self.reached.take_focus()
        else:
            self.yards.take_focus()

    def take_code(self, code: str) -> bool:
        """Every code is traced; a yard's goes forward, since it is where traces end."""
        letters = code.strip().upper()
        self.presenter.trace(code, forward=letters[:1] == "Y" or letters[3:4] == "Y")
        return True

    def handle(self, action: str) -> bool:
        """Print the river; open the card of what is traced."""
        if action == "print":
            self.print_river()
        elif action == "card":
            self._card()
        else:
            return False
        return True

    # What the presenter has to show.

    def show_timed(self, timed: Timed) -> None:
        """Show an answer, and how long it took."""
        if isinstance(timed.answer, TracePage):
            self._show_back(timed.answer, timed.seconds)
        else:
            self._show_forward(timed.answer, timed.seconds)

    def _show_back(self, page: TracePage, seconds: float) -> None:
        tr = self.widget.tr
        self._entries = page.entries
        self.bodies.setCurrentWidget(self.divider)
        self.answer.show_answer(self.presenter.heading(page), self.presenter.answer(page))
        self.river.show_graph(river_of(page))
        rows = self.presenter.yard_rows(page)
        self.yards.show_rows(rows)
        count = tr("{n} first ancestors").format(n=len(rows))
        grams = f"{page.trace.made_g:,}".replace(",", "\u202f")
        self.yards.show_totals(count, {"share": Total("100.0", "%"), "grams": Total(grams, "g")})
        self.yards.say_rows()
        self.turn.setText(tr("Where did it go?"))
        took = tr("{ms} ms, {n} lots in reach.").format(
            ms=round(seconds * 1000), n=len(page.trace.lots)
        )
        if page.holds:
            first = tr("On hold: {hold}.").format(hold=page.holds[0])
            self.slot.show_messages([Message(Mark.HOLD, first, took)])
        elif not page.trace.reach_complete:
            lead = tr("Not complete.")
            words = tr("Name the pallet that the unknown honey came from. {took}")
            self.slot.show_messages([Message(Mark.WARNING, lead, words.format(took=took))])
        else:
            lead = tr("Nothing in this trace is on hold.")
            self.slot.show_messages([Message(Mark.READY, lead, took)])
        if rows:
            self.yards.select(rows[0].code)

    def _show_forward(self, page: ForwardPage, seconds: float) -> None:
        tr = self.widget.tr
        self.bodies.setCurrentWidget(self.reached)
        heading = tr("Where the honey of {name} went").format(name=page.name)
        self.answer.show_answer(heading, self.presenter.forward_answer(page))
        self.reached.show_rows(self.presenter.reached_rows(page))
        self.reached.say_rows()
        self.turn.setText(tr("Where does it come from?"))
        took = tr("{ms} ms, {n} lots in reach.").format(
            ms=round(seconds * 1000), n=len(page.trace.lots)
        )
        self.slot.show_messages([Message(Mark.READY, tr("Whole lots are listed."), took)])

    def show_refusal(self, refusal: Refusal) -> None:
        """Say why a code cannot be traced; what may have been meant is named in the sentence."""
        tr = self.widget.tr
        self.slot.show_messages([Message(Mark.REFUSED, tr("Not traced."), refusal.text)])

    def _say_empty(self) -> None:
        tr = self.widget.tr
        self.answer.show_answer(tr("Trace"), tr("Any jar, back to its yards in a moment."))
        self.slot.set_next_step(tr("Scan a jar, or press F2 and type its code."))
        self.yards.show_rows(())

    def _card(self) -> None:
        if self.presenter.code:
            self.asks.card.emit(self.presenter.code)

    def print_river(self) -> None:
        """Write the river as a page, where the person keeps documents, and say where."""
        tr = self.widget.tr
        if not self.presenter.code:
            self.slot.show_messages([Message(Mark.NOTE, tr("Trace a code first."))])
            return
        folder = Path(
            QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        )
        folder.mkdir(parents=True, exist_ok=True)
        # The head's number tells two prints of the same code apart.
        path = folder / f"trace-{self.presenter.code}-{self._entries}.pdf"
        self.river.save_page(str(path))
        words = tr("Trace written to {path}.").format(path=path)
        self.slot.show_messages([Message(Mark.READY, words)])
