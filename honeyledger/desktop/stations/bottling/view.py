"""The bottling station: the form at the filler, and the sheet beside it."""

from pathlib import Path

from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import EVERYTHING, Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper, paper_message
from honeyledger.desktop.stations.bottling.after_view import AfterFiller
from honeyledger.desktop.stations.bottling.form_view import BottlingForm
from honeyledger.desktop.stations.bottling.label_view import LabelSeen
from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.propose_view import ProposeFeeds
from honeyledger.desktop.stations.bottling.sheet_view import BottlingSheetView
from honeyledger.desktop.stations.bottling.typed import LABELS
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.spread import Leaves, Part, Spread
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number
from honeyledger.services.bottling_page import BottlingPage

_USED = "JDPEA"


class BottlingView:
    """The page of the bottling. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self._desk = desk
        self._file: Path | None = None
        self._is_stale = True
        self._is_beginning = False
        self.asks = StationAsks()
        self.widget = QWidget()
        self.presenter = BottlingPresenter(desk)
        yield
        self.form = yield from in_pieces(BottlingForm, self.presenter)
        yield
        texts = self.form.texts()
        self.label = LabelSeen(desk, self.presenter, self.form.look, texts["lot"], texts["first"])
        self.propose = ProposeFeeds(desk, self.presenter, self.form.propose)
        self.sheet = yield from in_pieces(BottlingSheetView, self.presenter)
        yield
        self._page: BottlingPage | None = None
        self._after: AfterFiller | None = None
        self.left = Leaves(self.form.panel)
        tr = self.widget.tr
        self.spread = Spread(
            [
                Part(self.left, tr("At the filler"), 5, 8),
                Part(self.sheet.panel, tr("The jars"), 7, 8),
            ]
        )
        self.spread.fill(self.widget)
        presenter = self.presenter
        presenter.shown.connect(self._show)
        presenter.filled.connect(self._filled)
        presenter.refused.connect(self._refused)
        presenter.done.connect(self.asks.told)
        self.propose.told.connect(self.asks.told)
        self.propose.refused.connect(presenter.refuse)
        presenter.printed.connect(self._printed)
        presenter.drawing.connect(self._drawing)
        presenter.begun.connect(lambda: self.spread.show_part(0))
        self.form.slot.action_pressed.connect(lambda key: self.asks.open.emit(str(key)))
        self.sheet.opened.connect(self.asks.card)
        self.sheet.feed_chosen.connect(self._take)
        self.sheet.lot_chosen.connect(self._take)
        for button in (self.sheet.close_it, self.sheet.other, self.sheet.another, self.sheet.back):
            button.clicked.connect(self._to_form)
        self.sheet.turn.clicked.connect(self.turn)
        self._name_turn()
        desk.refresh.watch(EVERYTHING, self._changed)

    # Behind the filler.

    @property
    def after(self) -> AfterFiller:
        """The forms behind the filler, made when first turned to."""
        if self._after is None:
            after = self._after = AfterFiller(self._desk)
            self.left.add(after.panel)
            after.asking.done.connect(self._after_done)
            after.asking.refused.connect(self._after_refused)
            after.asking.restored.connect(self._after_restored)
            if self._page is not None:
                after.show_page(self._page)
        return self._after

    def is_after(self) -> bool:
        """Whether what is done behind the filler is in hand."""
        return self.left.currentWidget() is not self.form.panel

    def _after_restored(self, kind: str) -> None:
        """What was left half typed came after the form was shown: go on where it ends."""
        if self.is_after() and kind == self.after.asking.kind and self.widget.isVisible():
            self.after.form.begin()

    def turn(self) -> None:
        """From the filler to what is done behind it, and back."""
        other = self.form.panel if self.is_after() else self.after.panel
        self.left.setCurrentWidget(other)
        self._name_turn()
        self.spread.show_part(0)
        self.begin()

    def _name_turn(self) -> None:
        tr = self.widget.tr
        self.sheet.turn.setText(tr("To the filler") if self.is_after() else tr("Label, pack…"))

    def _after_done(self, _kind: str, message: Message) -> None:
        self.asks.told(message)
        self.after.form.begin()

    def _after_refused(self, refusal: Refusal) -> None:
        self.spread.show_part(0)
        self.after.form.show_refusal(refusal)

    def _changed(self) -> None:
        """Something was recorded: a page that nobody looks at is asked for when it is opened."""
        if self.widget.isHidden():
            self._is_stale = True
        else:
            self.presenter.ask()

    def _filled(self, _at: str) -> None:
        # Of a page that has come and is not shown yet, the sheet follows with it.
        if self.presenter.hand.page is self._page:
            self.sheet.show_typed()

    def _to_form(self) -> None:
        self.spread.show_part(0)
        self.form.begin()

    def _show(self, page: BottlingPage) -> None:
        self._page = page
        self.form.show_page(page)
        if self._after is not None:
            self._after.show_page(page)
        # In turns of their own: form and sheet in one would hold the window.
        self._desk.jobs.turns.add_pieces(self.sheet.showing(page))
        if self._is_beginning:
            # What is known only now may be filled in where the keyboard was put.
            self._is_beginning = False
            if not self.is_after():
                self.form.begin()

    def _refused(self, refusal: Refusal) -> None:
        self.spread.show_part(0)
        self.form.show_refusal(refusal)

    def _take(self, code: str) -> None:
        """A row was opened: it means what a scan of its code would; else its card opens."""
        self.spread.show_part(0)
        if self.is_after() and self.after.take_code(code):
            return
        if not self.presenter.scan(code):
            self.asks.card.emit(code)

    def _printed(self, paper: Paper | None) -> None:
        if paper is not None:
            self._file = paper.file
            tr = self.widget.tr
            where = tr("are in {file}; Ctrl+P opens them.")
            self.form.say([paper_message(paper, tr("The labels"), "", where)])

    def _drawing(self, done: int, of: int) -> None:
        words = self.widget.tr("{n} of {of} are drawn.")
        text = words.format(n=format_number(done), of=format_number(of))
        self.form.say([Message(Mark.WORKING, self.widget.tr("Labels:"), text)])

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where work goes on."""
        if self._is_stale:
            self._is_stale, self._is_beginning = False, True
            self.presenter.ask()
        if self.is_after():
            self.after.form.begin()
        else:
            self.form.begin()

    def take_code(self, code: str) -> bool:
        """A feed, a jar or a bottling is used here; everything else opens its card."""
        if self.is_after():
            return self.after.take_code(code)
        letter = self._desk.letter_of(code)
        if not letter or letter not in _USED or not self.presenter.scan(code):
            return False
        self.spread.show_part(0)
        return True

    def handle(self, action: str) -> bool:
        """The keys of this station."""
        doing = {
            "clear": self._clear,
            "print": self._print,
            "card": self._card,
            "trace-this": self._trace,
        }.get(action)
        if doing is None:
            return False
        return doing() is not False

    def _clear(self) -> None:
        if self.is_after():
            self.after.asking.clear()
            self.after.form.begin()
        else:
            self.presenter.clear()

    def _print(self) -> None:
        """Open the labels printed last; with none, go to where they are printed."""
        if self._file is not None and not self._desk.looks_first:
            self._desk.open_paper(self._file)
        else:
            self.presenter.choose(LABELS)
            self._to_form()

    def _card(self) -> bool:
        code = self.sheet.chosen()
        if code:
            self.asks.card.emit(code)
        return bool(code)

    def _trace(self) -> bool:
        code = self.sheet.chosen()
        if code:
            self.asks.trace.emit(code)
        return bool(code)
