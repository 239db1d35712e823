"""The trace page: the answer, the river with its table, or where the honey went."""

from pathlib import Path

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.trace.offers_view import Offers
from honeyledger.desktop.stations.trace.presenter import (
    ReachedRow,
    Timed,
    TracePresenter,
    YardRow,
)
from honeyledger.desktop.stations.trace.river_rows import code_of
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
    Column("grams", "Of it", lambda row: row.grams, ColumnKind.NUMBER, unit="g"),
)
REACHED_COLUMNS: tuple[Column[ReachedRow], ...] = (
    Column("code", "Code", lambda row: row.code, ColumnKind.CODE),
    Column("where", "Where", lambda row: row.where, ColumnKind.NAME, strong=True),
    Column("lots", "Lots", lambda row: row.lots, from_width=800),
    Column("jars", "Jars", lambda row: row.jars, ColumnKind.NUMBER),
    Column("grams", "Mass", lambda row: row.grams, ColumnKind.NUMBER),
)


# Below this width the bar has no room for a button whose work a key and a click do as well.
NARROW = 1100
_ALL_THE_ROOM = 20


class TraceView(QObject):
    """The page of the trace. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.widget = QWidget()
        self.widget.installEventFilter(self)
        self.asks = StationAsks()
        self.presenter = TracePresenter(desk)
        self._entries = 0
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        self.answer = Answer()
        self.panel = self._panel()
        column.addWidget(Spread([Part(self.panel, self.tr("Trace"), 12, 8)], above=self.answer))
        self._say_empty()
        self.presenter.answered.connect(self.show_timed)
        self.presenter.refused.connect(self.show_refusal)

    def _panel(self) -> Panel:
        tr = self.tr
        panel = Panel(density=Density.DESK)
        self.offers = Offers()
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
        self.divider = Divider(self.river, self.yards, upper_least=180)
        self.bodies.addWidget(self.divider)
        self.bodies.addWidget(self.reached)
        panel.add_part(self.offers)
        panel.set_body(self.bodies)
        bar = self.bar = panel.add_bar()
        self.turn = bar.add_secondary(tr("Where did it go?"))
        self.print_it = bar.add_secondary(tr("Print trace"))
        self.open_card = bar.add_plain(tr("Open its card"))
        self.slot = MessageSlot(density=Density.DESK, tall=True, ground="well")
        bar.set_side(self.slot)
        self.turn.clicked.connect(self.presenter.turn)
        self.print_it.clicked.connect(self.print_river)
        self.open_card.clicked.connect(self._card)
        self.offers.taken.connect(self.take_code)
        self.yards.selected.connect(self._row_chosen)
        self.yards.opened.connect(self.asks.card)
        self.reached.opened.connect(lambda _key: self._card())
        self.river.selected.connect(lambda key: self.yards.select(code_of(key)))
        self.river.opened.connect(lambda key: self.asks.card.emit(code_of(key)))
        self.river.centred.connect(lambda key: self.take_code(code_of(key)))
        return panel

    def _row_chosen(self, code: str) -> None:
        """The river follows the table; a lot chosen in the river has no row, and stays chosen."""
        if code:
            self.river.select(f"from {code}")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.widget and event.type() == QEvent.Type.Resize:
            self._fit_bar()
        return super().eventFilter(watched, event)

    def _fit_bar(self) -> None:
        has_room = self.widget.width() >= NARROW
        self.open_card.setVisible(bool(self.presenter.code) and has_room)
        row = self.bar.layout()
        assert isinstance(row, QHBoxLayout)
        row.setStretchFactor(self.slot, 1 if has_room else _ALL_THE_ROOM)

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard in the table, or on the offer of what was meant."""
        if not self.offers.isHidden() and self.offers.slot.shown() is not None:
            self.offers.take_focus()
        elif self.presenter.forward:
            self.reached.take_focus()
        else:
            self.yards.take_focus()

    def _begin_here(self) -> None:
        """After an answer, unless the person has gone elsewhere meanwhile."""
        focused = QApplication.focusWidget()
        here = focused is None or self.widget.isAncestorOf(focused)
        # In the river Enter goes on from lot to lot.
        if here and self.widget.isVisible() and focused is not self.river.canvas:
            self.begin()

    def take_code(self, code: str) -> bool:
        """Every code and every name is traced."""
        self.presenter.find(code)
        return True

    def handle(self, action: str) -> bool:
        """Print the river; open the card, or the trace, of what is chosen."""
        doing = {"print": self.print_river, "card": self._card, "trace-this": self._trace_chosen}
        if action in doing:
            doing[action]()
        return action in doing

    # What the presenter has to show.

    def show_timed(self, timed: Timed) -> None:
        """Show an answer, and how long it took."""
        self.offers.hide()
        page = timed.answer
        if isinstance(page, TracePage):
            self._show_back(page, timed)
        else:
            self._show_forward(page)
        self._entries = page.entries
        self.turn.setVisible(self.presenter.can_turn())
        self._fit_bar()
        self._say(page, timed)
        self._begin_here()

    def _show_back(self, page: TracePage, timed: Timed) -> None:
        tr = self.tr
        self.bodies.setCurrentWidget(self.divider)
        self.answer.show_answer(self.presenter.heading(page), self.presenter.answer(page))
        self.river.show()
        if timed.river is not None:
            self.river.show_graph(timed.river)
        rows = self.presenter.yard_rows(page)
        self.yards.show_rows(rows)
        self.yards.view.setAccessibleName(self.presenter.heading(page))
        grams = f"{page.trace.made_g:,}".replace(",", "\u202f")
        count = self.presenter.counted(page.trace.ancestors)
        self.yards.show_totals(count, {"share": Total("100.0", "%"), "grams": Total(grams, "g")})
        self.yards.say_rows()
        self.turn.setText(tr("Where did it go?"))
        self.print_it.show()
        if rows:
            self.yards.select(rows[0].code)

    def _show_forward(self, page: ForwardPage) -> None:
        tr = self.tr
        self.bodies.setCurrentWidget(self.reached)
        heading = tr("Where the honey of {name} went").format(name=page.name)
        self.answer.show_answer(heading, self.presenter.forward_answer(page))
        rows = self.presenter.reached_rows(page)
        self.reached.show_rows(rows)
        self.reached.view.setAccessibleName(heading)
        self.reached.say_rows()
        self.turn.setText(tr("Where does it come from?"))
        # A page of the way forward is a list, which the terminal writes; the river is not it.
        self.print_it.hide()
        if rows:
            self.reached.select(f"{rows[0].code} {rows[0].where}")

    def _say(self, page: TracePage | ForwardPage, timed: Timed) -> None:
        tr = self.tr
        took = tr("{ms} ms, {n} lots in reach.").format(
            ms=round(timed.seconds * 1000), n=len(page.trace.lots)
        )
        if isinstance(page, ForwardPage):
            message = Message(Mark.READY, tr("Whole lots are listed."), took)
        elif page.holds:
            message = Message(Mark.HOLD, tr("On hold: {hold}.").format(hold=page.holds[0]), took)
        elif not page.trace.reach_complete:
            words = tr("Name the pallet that the unknown honey came from. {took}")
            message = Message(Mark.WARNING, tr("Not complete."), words.format(took=took))
        else:
            message = Message(Mark.READY, tr("Nothing in this trace is on hold."), took)
        self.slot.show_messages([message])

    def show_refusal(self, refusal: Refusal) -> None:
        """Say why a code cannot be traced; what may have been meant can be pressed."""
        self.offers.show_refusal(refusal)
        self._begin_here()

    def _say_empty(self) -> None:
        tr = self.tr
        self.answer.show_answer(tr("Trace"), tr("Any jar, back to its yards in a moment."))
        self.slot.set_next_step(tr("A yard's code or name is traced forward."))
        self.yards.show_rows(())
        self.river.hide()
        for button in (self.turn, self.print_it, self.open_card):
            button.hide()

    def _chosen(self) -> str:
        """The code of the row that is chosen; "" for none."""
        table = self.reached if self.presenter.forward else self.yards
        return table.selected_key().split(" ")[0]

    def _card(self) -> None:
        """The card of the row that has the keyboard, else of what is traced."""
        table = self.reached if self.presenter.forward else self.yards
        code = self._chosen() if table.view.hasFocus() else self.presenter.code
        if code:
            self.asks.card.emit(code)

    def _trace_chosen(self) -> None:
        if self._chosen():
            self.take_code(self._chosen())

    def print_river(self) -> None:
        """Write the river as a page among the papers, show it, and say where it is."""
        if not self.presenter.code or self.presenter.forward:
            words = self.tr("Trace a code back first: its river is what is printed.")
            self.slot.show_messages([Message(Mark.NOTE, words)])
            return
        folder = self._desk.papers
        # The head's number tells two prints of the same code apart.
        path = folder / f"trace-{self.presenter.code}-{self._entries}.pdf"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self._write(path)
        except OSError as error:
            why = error.strerror or str(error)
            words = self.tr("{folder} cannot be written to: {why}.").format(folder=folder, why=why)
            self.slot.show_messages([Message(Mark.REFUSED, self.tr("Not printed."), words)])
            return
        words = self.tr("Trace written to {path}.").format(path=path)
        self.slot.show_messages([Message(Mark.READY, words)])
        self._desk.open_paper(path)

    def _write(self, path: Path) -> None:
        heading = (self.answer.page.text(), self.answer.sentence.text())
        if not self.river.save_page(str(path), heading):
            raise OSError(self.tr("the file could not be made"))
