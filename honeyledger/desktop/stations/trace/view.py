"""The trace page: the answer, the river with its table, and both on paper."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.trace.asides_view import Asides
from honeyledger.desktop.stations.trace.bodies_view import Bodies
from honeyledger.desktop.stations.trace.offers_view import Offers
from honeyledger.desktop.stations.trace.papers_view import TracePapers
from honeyledger.desktop.stations.trace.presenter import Timed, TracePresenter
from honeyledger.desktop.stations.trace.recall_asks import COMPLAINT, HOLD
from honeyledger.desktop.stations.trace.recall_view import RecallView
from honeyledger.desktop.stations.trace.tools_view import AnswerRow
from honeyledger.desktop.stations.trace.words import accounted
from honeyledger.desktop.stations.trace.yard_spots import yard_spots
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, Pieced
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.domain.refusals import Refusal
from honeyledger.services.trace_page import ForwardPage, TracePage

# Below this width the bar has no room for a button whose work a key and a click do as well.
NARROW, MIDDLE, WIDE = 1100, 1360, 1600
# Below this one buttons have one word, for the message beside them.
SHORT = 900
_ALL_THE_ROOM = 20


class TraceView(Pieced, QObject):
    """The page of the trace. See `StationView`."""

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        QObject.__init__(self)
        self._desk = desk
        self.widget = QStackedWidget()
        self.page = QWidget()
        self.widget.addWidget(self.page)
        self.page.installEventFilter(self)
        self.asks = StationAsks()
        self.asides = Asides(desk, self.widget, self.asks)
        self.asides.left.connect(self.begin)
        yield
        self.presenter = TracePresenter(desk)
        self._timed: Timed | None = None
        column = QVBoxLayout(self.page)
        column.setContentsMargins(0, 0, 0, 0)
        self.answer = Answer()
        self.panel = self._panel()
        yield
        self.row = AnswerRow(self.answer)
        column.addWidget(Spread([Part(self.panel, self.tr("Trace"), 12, 8)], above=self.row))
        self.row.zoomed.connect(self.river.zoom_by)
        self.row.map_wanted.connect(self.bodies.turn_map)
        self._say_empty()
        self.presenter.answered.connect(self.show_timed)
        self.presenter.refused.connect(self.show_refusal)

    def _panel(self) -> Panel:
        tr = self.tr
        panel = Panel(density=Density.DESK)
        self.offers = Offers()
        self.bodies = Bodies(self.presenter.beside)
        self.river, self.yards = self.bodies.river, self.bodies.yards
        self.reached = self.bodies.reached
        panel.add_part(self.offers)
        panel.set_body(self.bodies)
        bar = self.bar = panel.add_bar()
        self.over = bar.add_secondary("")
        self.turn = bar.add_secondary(tr("Where did it go?"))
        self.print_it = bar.add_secondary(tr("Print trace"))
        self.open_card = bar.add_plain(tr("Open its card"))
        self.complain = bar.add_plain(tr("Complaint"))
        self.exposure = bar.add_plain(tr("Exposure"))
        self.residue = bar.add_plain(tr("Residue"))
        self.picture = bar.add_plain(tr("Save as a picture"))
        self.affected = bar.add_grave(tr("What is affected"))
        self.slot = MessageSlot(density=Density.DESK, tall=True, ground="well")
        bar.set_side(self.slot)
        self.papers = TracePapers(self._desk, self.presenter, self.slot)
        self.over.clicked.connect(self.bodies.turn_over)
        self.turn.clicked.connect(self.presenter.turn)
        self.print_it.clicked.connect(lambda: self._print(picture=False))
        self.picture.clicked.connect(lambda: self._print(picture=True))
        self.open_card.clicked.connect(self._card)
        self.complain.clicked.connect(lambda: self.show_recall(COMPLAINT))
        self.exposure.clicked.connect(
            lambda: self.asks.hand.emit("exposure", tuple(filter(None, [self.presenter.code])))
        )
        self.residue.clicked.connect(lambda: self.asides.show_residue(self.presenter.code))
        self.affected.clicked.connect(lambda: self.show_recall(HOLD))
        self.offers.taken.connect(self.take_code)
        self.bodies.card_asked.connect(self.asks.card)
        self.bodies.centred.connect(self._centre)
        self.bodies.turned.connect(lambda _low: self._fit_bar())
        return panel

    def _centre(self, code: str) -> None:
        """Go on from a lot the way the trace runs; a yard has no way back."""
        is_lot = self._desk.letter_of(code) not in ("Y", "")
        self.presenter.trace(code, forward=self.presenter.forward or not is_lot)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.page and isinstance(event, QResizeEvent):
            self._fit_bar()
        return super().eventFilter(watched, event)

    def _fit_bar(self) -> None:
        wide = self.page.width()
        has_room, is_low = wide >= NARROW, self.bodies.is_low
        is_traced = self._timed is not None
        self._name_buttons(is_short=wide < SHORT)
        self.over.setVisible(is_traced and is_low)
        self.print_it.setVisible(is_traced and not is_low)
        is_forward = is_traced and self.presenter.forward
        self.residue.setVisible(is_forward and has_room)
        self.open_card.setVisible(is_traced and wide >= (MIDDLE if is_forward else NARROW))
        self.complain.setVisible(is_traced and wide >= MIDDLE)
        self.picture.setVisible(is_traced and wide >= WIDE)
        self.exposure.setVisible(is_traced and wide >= MIDDLE)
        self.affected.setVisible(is_traced and not is_low)
        bodies = self.bodies
        self.row.show_tools(
            river=is_traced and has_room and bodies.river.isVisibleTo(bodies),
            with_map=is_traced and bodies.has_map(),
            map_shown=bodies.is_map_shown(),
        )
        row = self.bar.layout()
        assert isinstance(row, QHBoxLayout)
        row.setStretchFactor(self.slot, _ALL_THE_ROOM)

    def _name_buttons(self, *, is_short: bool) -> None:
        """What turns the page over, or the trace round; one word where the message needs room."""
        tr, river = self.tr, self.bodies.shows_river()
        back = self._timed is not None and isinstance(self._timed.answer, ForwardPage)
        over = tr("Show the table") if river else tr("Show the river")
        turn = tr("Where does it come from?") if back else tr("Where did it go?")
        shown = (tr("Table") if river else tr("River"), tr("Back") if back else tr("Forward"))
        for button, words, word in zip((self.over, self.turn), (over, turn), shown, strict=True):
            button.setText(word if is_short else words)
            button.setAccessibleName(words)
        self.slot.set_tight(is_short)

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard in the table, or on the offer of what was meant."""
        self.widget.setCurrentWidget(self.page)
        if not self.offers.isHidden() and self.offers.slot.shown() is not None:
            self.offers.take_focus()
        else:
            self.bodies.take_focus()

    def _begin_here(self) -> None:
        """After an answer, unless the person has gone elsewhere meanwhile."""
        focused = QApplication.focusWidget()
        here = focused is None or self.page.isAncestorOf(focused)
        # In the river Enter goes on from lot to lot.
        if here and self.page.isVisible() and not self.bodies.river_has_focus():
            self.begin()

    def take_code(self, code: str) -> bool:
        """Every code and every name is traced; beside a form it goes into the form."""
        beside = self.asides.shown()
        if beside is not None:
            return beside.take_code(code)
        self.presenter.find(code)
        return True

    def recall(self) -> RecallView:
        """The page of a call back, made when it is first wanted."""
        return self.asides.recall()

    def show_recall(self, kind: str, code: str = "") -> None:
        """Show what goes with a code, else the one on the page, with one of the forms in hand."""
        self.asides.show_recall(kind, code or self.presenter.code)

    def handle(self, action: str) -> bool:
        """Print the trace, or save its picture; open the card, or the trace, of what is chosen."""
        doing: dict[str, Callable[[], object]] = {
            "print": lambda: self._print(picture=False),
            "picture": lambda: self._print(picture=True),
            "card": self._card,
            "trace-this": self._trace_chosen,
            "affected": lambda: self.show_recall(HOLD),
            "complaint": lambda: self.show_recall(COMPLAINT),
            "exposure-this": self.exposure.click,
            "residue": lambda: self.asides.show_residue(self.presenter.code),
        }
        beside = self.asides.shown()
        if beside is not None and action not in ("affected", "complaint", "residue"):
            return beside.handle(action)
        if action in doing:
            doing[action]()
        return action in doing

    # What the presenter has to show.

    def show_timed(self, timed: Timed) -> None:
        """Show an answer, and how long it took."""
        self.offers.hide()
        self._timed = timed
        page = timed.answer
        if isinstance(page, TracePage):
            self._show_back(page, timed)
        else:
            self._show_forward(page, timed)
        self.bodies.name_table(self.answer.page.text())
        self.turn.setVisible(self.presenter.can_turn())
        self._fit_bar()
        self._say(page, timed)
        self._begin_here()

    def _show_back(self, page: TracePage, timed: Timed) -> None:
        self.answer.show_answer(self.presenter.heading(page), self.presenter.answer(page))
        grams = f"{page.trace.made_g:,}".replace(",", "\u202f")
        count = self.presenter.counted(page.trace.ancestors)
        self.bodies.show_back(timed.river, timed.yards, count, grams)
        self.bodies.show_map(*yard_spots(page))

    def _show_forward(self, page: ForwardPage, timed: Timed) -> None:
        heading = self.tr("Where the honey of {name} went").format(name=page.name)
        self.answer.show_answer(heading, self.presenter.forward_answer(page))
        self.bodies.show_forward(timed.river)
        # In a turn of its own: it may have thousands of rows, and the river as many lots.
        self._desk.jobs.turns.add(lambda: self._list_reached(timed))

    def _list_reached(self, timed: Timed) -> None:
        if timed is self._timed:
            self.bodies.list_reached(timed.reached)

    def _say(self, page: TracePage | ForwardPage, timed: Timed) -> None:
        tr = self.tr
        took = tr("{ms} ms, {n} lots in reach, {accounted}.").format(
            ms=round(timed.seconds * 1000),
            n=len(page.trace.lots),
            accounted=accounted(page.accounted),
        )
        if isinstance(page, ForwardPage):
            lead = tr("The river is its own honey; the table lists whole lots.")
            message = Message(Mark.READY, lead, took)
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
        self.bodies.show_nothing()
        self.turn.hide()
        self._fit_bar()

    def _card(self) -> None:
        """The card of the row that has the keyboard, else of what is traced."""
        has_focus = self.bodies.table().view.hasFocus()
        code = self.bodies.chosen() if has_focus else self.presenter.code
        if code:
            self.asks.card.emit(code)

    def _print(self, *, picture: bool) -> None:
        """Write the trace among the papers, as pages or as a picture, and show it."""
        heading = (self.answer.page.text(), self.answer.sentence.text())
        self.papers.print(self._timed, heading, self.bodies, picture=picture)

    def _trace_chosen(self) -> None:
        if self.bodies.chosen():
            self.take_code(self.bodies.chosen())
