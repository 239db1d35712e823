"""The drum room's page: what is done at the left, the drums at the right."""

from collections.abc import Callable, Mapping

from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.label_print import ChosenLabel, LabelWords
from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.room_asks import ROOMS
from honeyledger.desktop.models.tied_words import tied_words
from honeyledger.desktop.stations.drums.asks import READ
from honeyledger.desktop.stations.drums.blend_asks import BLEND
from honeyledger.desktop.stations.drums.blend_plan import (
    blend_figures,
    blend_heading,
    judged,
    made_figures,
    made_heading,
    mixed,
)
from honeyledger.desktop.stations.drums.parts import DRUMS, HOLDS, VESSELS
from honeyledger.desktop.stations.drums.presenter import DrumsPresenter
from honeyledger.desktop.stations.drums.propose_view import Propose
from honeyledger.desktop.stations.drums.rows import (
    Figure,
    about,
    caution,
    drum_columns,
    drum_figures,
    drum_heading,
    heading,
    totals,
)
from honeyledger.desktop.stations.drums.stock_view import StockForms
from honeyledger.desktop.stations.drums.tied_view import TiedDrums
from honeyledger.desktop.stations.drums.words import tr
from honeyledger.desktop.tokens import PANEL_SIDE, Density
from honeyledger.desktop.turns import Making, Pieced, in_pieces
from honeyledger.desktop.widgets.asking_page import TOTALS_HEIGHT, AskingPage
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.find_field import FindField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.wedge import Wedge
from honeyledger.domain.units import format_mass
from honeyledger.services.drums_page import DrumRow, DrumsPage
from honeyledger.services.label_forms import DRUM_STICKER

TAKEN = "DPE"


class DrumsView(Pieced, AskingPage):
    """The page of the drum room. See `StationView`."""

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.presenter = DrumsPresenter(desk)
        AskingPage.__init__(self, desk, self.presenter, Density.DESK)
        self.form = yield from in_pieces(
            AskingPanel,
            self.presenter.asking,
            tr("Drums"),
            tr("What is done"),
            self.density,
            self._line_label,
        )
        yield
        self.labels = ChosenLabel(desk, self.form.say, _label_words())
        self.stickers = ChosenLabel(desk, self.form.say, _sticker_words(), DRUM_STICKER)
        self._are_stickers = False
        self.tied = TiedDrums(desk, self.presenter, self.form)
        self.stock = StockForms(desk, self.form.panel, self.density)
        self.at_left = self.stock.leaves
        yield
        listed = self._made_list()
        yield
        self._connect()
        self.lay_out(tr("What is done"), listed, tr("On hand"))

    def _made_list(self) -> Panel:
        density = self.density
        panel = Panel(tr("On hand"), density=density)
        self.find = FindField(tr("Find: code, yard, place, 17-18 %, <50 mm, XLA"), density=density)
        self.narrowing = QWidget()
        row = QHBoxLayout(self.narrowing)
        row.setContentsMargins(PANEL_SIDE - 1, 0, PANEL_SIDE - 1, 12)
        row.addWidget(self.find)
        self.table = Table(
            drum_columns("kg"),
            lambda one: one.code,
            density=density,
            empty=tr("No drum on hand is like that."),
            sorts_itself=True,
            plan=TablePlan(foot_height=TOTALS_HEIGHT),
        )
        self.table.view.setAccessibleName(tr("Drums on hand"))
        self.figures = KeyFigures(density=density)
        self.above_foot = self.table.set_above_foot(self.figures)
        self.above_foot.want(False)
        panel.set_bodies((self.narrowing, 0), (self.table, 1))
        bar = panel.add_bar()
        self.unread = bar.add_secondary(tr("Pots for all to read"))
        button = bar.add_secondary(tr("Propose drums"))
        self.propose = Propose(self.desk, self.presenter, self.form, button)
        self.label = bar.add_secondary(tr("Label"), icon="print")
        self.sticker = bar.add_secondary(tr("Sticker"))
        self.sell = bar.add_plain(tr("Sell"))
        self.stock.use_button(bar.add_plain(""), tr("Stock…"), tr("To the drums"))
        return panel

    def _connect(self) -> None:
        presenter, asking = self.presenter, self.presenter.asking
        self._drums: tuple[DrumsPage | None, list[Choice]] = (None, [])
        presenter.made_beside = self._make_beside
        presenter.shown.connect(self._show)
        presenter.narrowed.connect(self._show_rows)
        asking.changed.connect(self._show_figures)
        self.find.edited.connect(presenter.find)
        self.find.submitted.connect(self.table.take_focus)
        self.table.selected.connect(lambda _key: self._show_figures())
        self.table.opened.connect(self._take_in_hand)
        self.unread.clicked.connect(self._pots)
        self.label.clicked.connect(lambda: self._write(stickers=False))
        self.sticker.clicked.connect(lambda: self._write(stickers=True))
        self.sell.clicked.connect(self._sell)
        self.propose.told.connect(self.asks.told)
        self.tied.known.connect(self._show_figures)
        self.stock.done.connect(self.asks.told)
        self.stock.turned.connect(self._turned)
        self.stock.refused.connect(lambda _refusal: self.spread.show_part(0))

    # What is shown.

    def _show(self, page: DrumsPage) -> None:
        self.form.set_unit(page.unit)
        self.table.model.columns = drum_columns(page.unit, page.rows)
        self._show_rows()
        # In a turn of its own: a large house has thousands of drums to choose from.
        self.desk.jobs.turns.add(lambda: self._offer(page))

    def _make_beside(self, page: DrumsPage) -> None:
        self._drums = page, _drum_choices(page)

    def _offer(self, page: DrumsPage) -> None:
        """What there is to choose from in the form."""
        form = self.form
        known, drums = self._drums
        if known is not page:
            drums = _drum_choices(page)
        form.offer(DRUMS, drums)
        self.stock.offer(page, drums)
        form.offer(ROOMS, [Choice(row.name, row.name) for row in page.rooms])
        form.offer(VESSELS, [Choice(row.code, row.name) for row in page.vessels])
        form.offer(HOLDS, _hold_choices(page))

    def _show_rows(self) -> None:
        page, rows = self.presenter.page, self.presenter.rows()
        if page is None:
            return
        self.listed.set_heading(heading(rows, page))
        self.table.view.empty = (
            tr("No drum on hand is like that.")
            if page.rows
            else tr("No drum on hand. Ctrl+4 opens the floor, where drums are filled.")
        )
        self.table.show_rows(rows)
        self.table.show_totals(*totals(rows, page))
        self._show_figures()

    def _show_figures(self) -> None:
        """Under the table: the plan of a blend while one is made, else the drum in hand."""
        page, asking = self.presenter.page, self.presenter.asking
        self.unread.setVisible(asking.kind == READ)
        if page is None:
            return
        if asking.kind == BLEND and asking.now().lines:
            plan = mixed(asking.now(), page)
            tied = self.tied.now()
            tells = blend_heading(plan) if tied is None else tied_words(tied, page.unit)
            words = judged(plan, asking.now(), tells) or tells
            # A blend lies between its parts' colours: no one place on the scale is its own.
            self._figures(words, blend_figures(plan, page.unit))
            return
        if asking.kind == BLEND and self._show_blend_made(page):
            return
        row = self.presenter.row(self.table.selected_key())
        self.above_foot.want(row is not None)
        if row is not None:
            colour = None if row.colour is None else row.colour / 10
            words = "; ".join(map(say, row.ways or row.held)) or caution(row) or drum_heading(row)
            self._figures(words, drum_figures(row), Wedge(colour))

    def _show_blend_made(self, page: DrumsPage) -> bool:
        """The blend made last in the vessel named, else in any: whether there was one."""
        into = self.presenter.asking.now().text("into")
        made = {into: page.blends[into]} if into in page.blends else dict(page.blends)
        if (into and into not in page.blends) or not made:
            return False
        vessel = max(made, key=lambda code: made[code].happened.at_ms)
        name = next((one.name for one in page.vessels if one.code == vessel), vessel)
        self._figures(made_heading(name, made[vessel]), made_figures(made[vessel], page.unit))
        return True

    def _figures(self, words: str, figures: list[Figure], wedge: Wedge | None = None) -> None:
        shown = [KeyFigure(one.figure, one.meaning) for one in figures]
        beside = [wedge] if wedge is not None else []
        self.figures.show_figures(words, shown, *beside)
        self.above_foot.want(True)

    def _line_label(self, at: int, code: str) -> str:
        """A pot or a part by its number, its drum, and how people call that."""
        row = self.presenter.row(code)
        return " ".join(part for part in (str(at), code, row.container if row else "") if part)

    # What happened.

    def _take_in_hand(self, key: str) -> None:
        """Enter on a drum: the form in hand takes it."""
        if key:
            self.stock.show_first()
            self.presenter.scan(key)
            self.go_on()

    def _pots(self) -> None:
        """A pot for each drum nobody has read yet."""
        codes = self.presenter.not_read()
        if not codes:
            self.form.say(Message(Mark.NOTE, tr("Every drum that is shown was read.")))
            return
        self.stock.show_first()
        self.spread.show_part(0)
        for code in codes:
            self.presenter.asking.scan(code)
        first = self.form.line_field("moisture", codes[0])
        if first is not None:
            self.form.form.take_focus(first)

    def _sell(self) -> None:
        """The drums chosen go on the note in hand at dispatch, which refuses what may not go."""
        codes = self.table.view.chosen_keys()
        if codes:
            self.asks.sell.emit(codes)
        else:
            self.form.say(
                Message(Mark.NOTE, tr("Choose the drums first: they go on a note then."))
            )

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where the form in hand goes on."""
        super().begin()
        if self.stock.is_shown():
            self.stock.form.begin()

    def _turned(self) -> None:
        self.spread.show_part(0)
        self.begin()

    def take_code(self, code: str) -> bool:
        """A drum on hand is chosen and goes into the form in hand; the rest is for cards."""
        if self.stock.is_shown():
            self.spread.show_part(0)
            return self.stock.take_code(code)
        letter, plain = self.desk.letter_of(code), self.desk.code_of(code)
        if not letter or letter not in TAKEN or self.presenter.row(plain) is None:
            return False
        meant = self.presenter.scan(plain)
        if self.table.model.place_of(meant) is None:
            self.find.set_text("")
            self.presenter.find("")
        self.table.select(meant)
        self.go_on()
        return True

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        return {
            "clear": self._clear_in_hand,
            "find": self._find,
            "print": self._print,
        }

    def _clear_in_hand(self) -> None:
        if not self.stock.clear():
            self.clear()

    def _print(self) -> None:
        """What a row is walked with, while it is walked; else labels."""
        if not self.stock.print_list():
            labels = self.stickers if self._are_stickers else self.labels
            labels.open(self.table.view.chosen_keys())

    def _write(self, *, stickers: bool) -> None:
        """Labels or lids' stickers of the drums chosen; the key prints or opens the same next."""
        self._are_stickers = stickers
        (self.stickers if stickers else self.labels).write(self.table.view.chosen_keys())

    def _find(self) -> None:
        self.spread.show_part(1)
        self.find.take_focus()


def _label_words() -> LabelWords:
    return LabelWords(
        choose=tr("Choose a drum first: its label is printed then."),
        lead=tr("The label {code}"),
        many=tr("The labels of {n} drums"),
        failed=tr("No label printed."),
    )


def _sticker_words() -> LabelWords:
    return LabelWords(
        choose=tr("Choose a drum first: the sticker for its lid is printed then."),
        lead=tr("The sticker"),
        many=tr("The stickers of {n} drums"),
        failed=tr("No sticker printed."),
    )


def _hold_choices(page: DrumsPage) -> list[Choice]:
    return [
        Choice(row.number, f"{say(row.name)}: {say(row.reason)}", row.number) for row in page.holds
    ]


def _drum_choices(page: DrumsPage) -> list[Choice]:
    return [Choice(row.code, _drum_words(row), _note(row, page)) for row in page.rows]


def _drum_words(row: DrumRow) -> str:
    return " ".join(part for part in (row.code, about(row)) if part)


def _note(row: DrumRow, page: DrumsPage) -> str:
    return format_mass(row.grams, page.unit, 0)
