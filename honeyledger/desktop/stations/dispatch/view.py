"""The page of dispatch: the form at the left, the note as it grows at the right."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper, paper_message
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.dispatch.fields_view import SEND
from honeyledger.desktop.stations.dispatch.form_view import DispatchForm
from honeyledger.desktop.stations.dispatch.other_presenter import OtherPresenter
from honeyledger.desktop.stations.dispatch.other_typed import AWAY, BACK, SAMPLE
from honeyledger.desktop.stations.dispatch.picking import Scanned
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.rows import tr
from honeyledger.desktop.stations.dispatch.side_rows import ASIDE
from honeyledger.desktop.stations.dispatch.side_view import (
    FOLLOWS,
    HAD,
    HAND,
    NOTE,
    NOTES,
    SidePanel,
)
from honeyledger.desktop.stations.dispatch.trade_view import GATE_VIEW, OWED, Trade
from honeyledger.desktop.stations.dispatch.typed import NoteTyped
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.domain.refusals import Refusal
from honeyledger.services.dispatch_page import DispatchPage

SENT, NOTE_LETTER = "DJPKWAECL", "N"


class DispatchView:
    """The page of dispatch. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.widget = QWidget()
        self.asks = StationAsks()
        self._desk = desk
        density = desk.density(Density.DESK)
        self.presenter = DispatchPresenter(desk)
        self.sheets = Sheets(desk, lambda message: self.form.say(message))
        self.others = OtherPresenter(desk)
        yield
        self.form = yield from in_pieces(DispatchForm, self.presenter, self.others, density)
        yield
        self.side = yield from in_pieces(SidePanel, self.presenter, density)
        yield
        self.trade = Trade(desk, self.form.panel, self.side, density)
        self.spread = Spread(
            [
                Part(self.trade.forms.leaves, tr("Dispatch"), 5, 8),
                Part(self.side.panel, tr("Note"), 7, 8),
            ]
        )
        self.spread.fill(self.widget)
        self._connect()
        self.presenter.ask()

    def _connect(self) -> None:
        presenter, others = self.presenter, self.others
        presenter.shown.connect(self._show)
        presenter.changed.connect(self.side.show_note)
        presenter.found.connect(self._found)
        presenter.sent.connect(self._sent)
        presenter.printed.connect(self._printed)
        presenter.refused.connect(self._refused)
        others.refused.connect(self._refused)
        others.came_back.connect(self.side.show_had)
        others.followed.connect(self.side.show_follows)
        others.done.connect(self._done)
        self.form.chosen.connect(self._chosen)
        self.form.slot.action_pressed.connect(self._bring_back)
        self.side.opened.connect(self._opened)
        self.side.taken_off.connect(presenter.take_off)
        self.side.paper_asked.connect(presenter.print)
        self.side.drums_asked.connect(self.sheets.print_drums)
        self.side.grown.connect(self.asks.grown)
        forms = self.trade.forms
        forms.turned.connect(self._turned)
        forms.done.connect(self.asks.told)
        forms.refused.connect(lambda _refusal: self.spread.show_part(0))

    def _turned(self) -> None:
        self.spread.show_part(0)
        self.begin()

    def _show(self, page: DispatchPage) -> None:
        self.form.show_page(page)
        # In a turn of its own: all of it in one would hold the window.
        self._desk.jobs.turns.add(lambda: self._show_beside(page))

    def _show_beside(self, page: DispatchPage) -> None:
        self.trade.show_page(page)
        self.side.show_page(page)

    def _chosen(self, kind: str) -> None:
        """What belongs to what happens now stands at the right."""
        self.side.follow({BACK: HAD, AWAY: FOLLOWS}.get(kind, HAND))
        if kind == SEND:
            self.side.show_note()
        self.side.show_had(self.others.back)
        self.side.show_follows(())

    def _found(self, code: str, _what: Scanned) -> None:
        self.side.follow(NOTE)
        self.side.show_note(code)

    def _sent(self, code: str, message: Message) -> None:
        self.asks.told(message)
        self.side.follow(NOTE)
        self.side.show_note()
        self.form.done()

    def _done(self, _kind: str, message: Message) -> None:
        self.asks.told(message)
        self.form.done()

    def _printed(self, what: object) -> None:
        if isinstance(what, Paper):
            self.presenter.last_note = what.file.stem
        if isinstance(what, Paper | Refusal):
            self.form.say(paper_message(what, tr("The note {code}"), tr("No note printed.")))

    def _refused(self, refusal: Refusal) -> None:
        self.spread.show_part(0)
        self.form.show_refusal(refusal)

    def _opened(self, view: str, key: str) -> None:
        """Enter on a row: go on with it."""
        if view in (OWED, GATE_VIEW):
            if code := self.trade.opened(view, key):
                self.asks.card.emit(code)
            return
        if view == NOTE and "/" not in key:
            self._go_on(lambda: self.form.note.take_in_hand(key))
        elif view == HAND and self.form.kind in (AWAY, SAMPLE):
            self.others.scan(self._oldest(key))
            self.form.begin()
        elif view in (NOTE, HAND):
            self._go_on(lambda: self.form.note.take_wanted(key))
        elif view == NOTES and key.startswith(ASIDE):
            self.presenter.take_up(int(key.removeprefix(ASIDE)))
            self.side.follow(NOTE)
            self.side.show_note()
            self._go_on(self.form.begin)
        elif view == NOTES:
            self.presenter.print(key)

    def _go_on(self, act: Callable[[], object]) -> None:
        """The form again, with the keyboard in it."""
        self.trade.forms.show_first()
        self.spread.show_part(0)
        if self.form.kind != SEND:
            self.form.choose(SEND, begins=False)
        act()

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where the form goes on."""
        if self.trade.forms.is_shown():
            self.trade.forms.form.begin()
        else:
            self.form.begin()

    def take_code(self, code: str) -> bool:
        """What can be sent goes on the note; a note's own code is looked up among the notes."""
        if self.trade.forms.is_shown():
            return self.trade.forms.take_code(code)
        letter, plain = self._desk.letter_of(code), self._desk.code_of(code)
        if letter == NOTE_LETTER and self.form.kind != BACK:
            self.side.choose_view(NOTES)
            self.spread.show_part(1)
            self.side.tables[NOTES].select(plain)
            return True
        if self.form.kind == SEND:
            if not letter or letter not in SENT:
                return False
            self.spread.show_part(0)
            self.presenter.scan(plain)
            return True
        if not letter or letter in "GYROQ":
            return False
        self.spread.show_part(0)
        self.others.scan(plain)
        self.form.begin()
        return True

    def sell(self, codes: Sequence[str]) -> None:
        """Put these on the note in hand, as if they were scanned here."""
        self.trade.forms.show_first()
        self._go_on(self.form.begin)
        self.presenter.sell(codes)

    def handle(self, action: str) -> bool:
        """The keys of this station."""
        doing: Callable[[], object] | None = {
            "clear": self._clear,
            "repeat": self._repeat,
            "more-yards": self._put_aside,
            "print": self._open_paper,
            "card": lambda: self._of_lot(self.asks.card.emit),
            "trace-this": lambda: self._of_lot(self.asks.trace.emit),
        }.get(action)
        if doing is not None:
            doing()
        return doing is not None

    def _clear(self) -> None:
        if self.trade.forms.clear():
            return
        if self.form.kind != SEND:
            self.others.clear(self.form.kind)
            self.form.begin()
            return
        note = self.presenter.clear()
        if note.is_begun:
            offer = tr("Bring it back")
            message = Message(Mark.NOTE, tr("The note is cleared."), "", offer, note)
            self.form.say(message)
        self.form.begin()

    def _bring_back(self, note: object) -> None:
        if isinstance(note, NoteTyped):
            self.presenter.bring_back(note)
            self.form.begin()

    def _repeat(self) -> None:
        self.trade.forms.show_first()
        if self.form.kind != SEND:
            self.form.choose(SEND)
        if self.presenter.repeat():
            words = tr("is wanted again. Pick it, or change the numbers.")
            self.form.say(Message(Mark.NOTE, tr("What the last note had"), words))
            self.form.note.begin_goes()
        else:
            words = tr("Name a customer who had something lately; this asks for it again.")
            self.form.say(Message(Mark.NOTE, words))

    def _put_aside(self) -> None:
        self.trade.forms.show_first()
        if self.form.kind != SEND:
            self.form.choose(SEND)
        self.presenter.put_aside()
        self.form.begin()

    def _open_paper(self) -> None:
        key = self.side.selected() if self.side.shown == NOTES else ""
        last = self.presenter.last_note
        of = key if key and not key.startswith(ASIDE) else last
        if of and (of != last or self._desk.looks_first):
            self.presenter.print(of)
            return
        if last:
            self._desk.open_paper(self._desk.papers / f"{last}.pdf")
            return
        words = tr("Sign a note first, or choose one of the notes: its paper is printed then.")
        self.form.say(Message(Mark.NOTE, words))

    def _of_lot(self, ask: Callable[[str], object]) -> None:
        """The card, or the trace, of the lot chosen at the right, else of the one in hand."""
        key = self.side.selected() if self.side.shown in (NOTE, HAND) else ""
        code = self._oldest(key) if "/" in key else key or self.form.note.hand
        if code:
            ask(code)

    def _oldest(self, group: str) -> str:
        """The lot of a product, or of drums, that goes first; "" where none may."""
        page = self.presenter.page
        found = page.group(group) if page else None
        return found.lots[0] if found and found.lots else ""
