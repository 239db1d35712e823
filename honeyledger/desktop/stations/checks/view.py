"""The page of checks: what was found at the left; what is due, and what it puts in doubt."""

from collections.abc import Callable, Mapping

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.language import say
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.checks.asks import CHECKS, HOLD, OFF_ONES, row_name
from honeyledger.desktop.stations.checks.presenter import ChecksPresenter
from honeyledger.desktop.stations.checks.rows import (
    check_columns,
    heading,
    told,
    used_columns,
)
from honeyledger.desktop.stations.checks.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.asking_page import AskingPage
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.checks import WORDS, State
from honeyledger.services.checks import ChecksPage

# Beside the lots that used it, what is told of a check is one message.
_LOW, _HIGH = 92, 16_777_215
NOT_SHOWN_YET: frozenset[str] = frozenset(("",))


class ChecksView(AskingPage):
    """The page of checks. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.presenter = ChecksPresenter(desk)
        self._off = NOT_SHOWN_YET
        super().__init__(desk, self.presenter, Density.DESK)
        self.sheets = Sheets(desk, self.asks.told)
        self.form = yield from in_pieces(
            AskingPanel,
            self.presenter.asking,
            tr("Checks"),
            tr("What is written down"),
            self.density,
        )
        yield
        listed = self._made_list()
        yield
        self.presenter.shown.connect(self._show)
        self.table.selected.connect(self._chosen)
        self.table.opened.connect(self._take_in_hand)
        self.used.opened.connect(lambda key: self.asks.card.emit(key))
        self.call_back.clicked.connect(self._call_back)
        self.to_hold.clicked.connect(lambda: self._take_in_hand(self.table.selected_key()))
        self.lay_out(tr("Check"), listed, tr("What is due"))

    def _made_list(self) -> Panel:
        panel = Panel(tr("What is due"), density=self.density)
        self.table = Table(
            check_columns(),
            lambda one: one.key,
            density=self.density,
            empty=tr("No check is on the list of this house. Add them under Setup."),
            sorts_itself=True,
        )
        self.table.view.setAccessibleName(tr("What is due"))
        self.notes = Notes()
        self.used = Table(
            used_columns(),
            lambda one: one.code,
            density=self.density,
            empty=tr("Nothing used it since."),
            sorts_itself=True,
        )
        self.used.view.setAccessibleName(tr("What used it since"))
        self.used.hide()
        panel.set_bodies((self.table, 3), (self.notes, 2), (self.used, 3))
        bar = panel.add_bar()
        self.to_hold = bar.add_secondary(tr("Hold what used it"))
        self.to_hold.hide()
        self.call_back = bar.add_secondary(tr("Open a recall"))
        self.call_back.hide()
        return panel

    # What is shown.

    def _show(self, page: ChecksPage) -> None:
        self.form.offer(
            CHECKS, [Choice(row.key, row_name(row), say(WORDS[row.state])) for row in page.rows]
        )
        off = [row for row in page.rows if row.state is State.OFF]
        self.form.offer(OFF_ONES, [Choice(row.key, row_name(row)) for row in off])
        self.listed.set_heading(heading(page))
        before = self.table.selected_key()
        self.table.show_rows(page.rows)
        if not before and page.rows:
            self.table.select(page.rows[0].key)
        found = [row.key for row in off if row.key not in self._off]
        if found and self._off is not NOT_SHOWN_YET:
            # What was just found off is shown with what used it since, to be held.
            self.table.select(found[0])
        self._off = frozenset(row.key for row in off)
        self._chosen(self.table.selected_key())

    def _chosen(self, key: str) -> None:
        """The check in hand: what to look at, and what used it where it is off."""
        row, used = self.presenter.row(key), self.presenter.used(key)
        self.notes.show_messages(told(row, used) if row is not None else [])
        self.notes.setMaximumHeight(_LOW if used is not None else _HIGH)
        self.used.setVisible(used is not None)
        self.to_hold.setVisible(used is not None and used.free > 0)
        self.call_back.setVisible(used is not None and bool(used.rows))
        self.used.show_rows(used.rows if used is not None else ())

    def _call_back(self) -> None:
        """A case on all that used the check in hand since it was last in order."""
        used = self.presenter.used(self.table.selected_key())
        if used is not None and used.rows:
            self.asks.hand.emit("recalls", tuple(row.code for row in used.rows))

    def _take_in_hand(self, key: str) -> None:
        """A check was opened: the form takes it."""
        if not key:
            return
        self.presenter.take(key)
        self.form.choose(self.presenter.asking.kind)
        self.table.select(key)
        self.go_on()

    # What the window asks of a station.

    def take_code(self, code: str) -> bool:
        """A piece of equipment whose label is scanned is what is checked."""
        plain = self.desk.code_of(code)
        page = self.presenter.page
        rows = [row for row in page.rows if row.equipment == plain] if page else []
        if not rows:
            return False
        self._take_in_hand(rows[0].key)
        return True

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        return {
            "card": self._card,
            "affected": lambda: self.form.choose(HOLD),
            "print": lambda: self.sheets.print_kind("checks-log"),
        }

    def _card(self) -> None:
        """The card of the lot in hand, not of a check."""
        if code := self.used.selected_key():
            self.asks.card.emit(code)
