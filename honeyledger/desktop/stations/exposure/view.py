"""The page of exposure: what ties most at the left, what would go with one code at the right."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QStackedWidget, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.exposure.presenter import ExposurePresenter
from honeyledger.desktop.stations.exposure.rows import (
    answer,
    best_wash,
    called_figures,
    ranked,
    run_columns,
    run_words,
    source_columns,
    tie_columns,
    wash_columns,
)
from honeyledger.desktop.stations.exposure.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.chooser import Chooser
from honeyledger.desktop.widgets.fields import CodeField
from honeyledger.desktop.widgets.figures import Answer, KeyFigure, KeyFigures
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal
from honeyledger.services.exposure import Called
from honeyledger.services.exposure_page import ExposurePage

TIES, SOURCES, WASH, RUNS = "ties", "sources", "wash", "runs"
DENSITY = Density.DESK


class ExposureView(QObject):
    """The page of exposure. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self.widget = QWidget()
        self.asks = StationAsks()
        self.presenter = ExposurePresenter(desk)
        self.presenter.is_seen = self.widget.isVisible
        self.answer = Answer()
        yield
        yield from self._tables()
        self.ranked = self._made_ranked()
        yield
        self.one = self._made_one()
        yield
        self.spread = Spread(
            [Part(self.ranked, tr("What ties most"), 7, 8), Part(self.one, tr("One code"), 5, 8)],
            above=self.answer,
        )
        self.spread.fill(self.widget)
        self.presenter.shown.connect(self._show)
        self.presenter.called.connect(self._show_called)
        self.presenter.refused.connect(self._refused)
        self.answer.show_answer(tr("Recall exposure"), tr("Reading the house"))
        self.show_kind(TIES)

    def _tables(self) -> Making[None]:
        self.stack = QStackedWidget()
        self.tables: dict[str, Table] = {}
        for kind, columns, empty in (
            (TIES, tie_columns("kg"), tr("Nothing ties sources together.")),
            (SOURCES, source_columns("kg"), tr("Nothing stands here.")),
            (WASH, wash_columns("kg"), tr("Nothing clings to a vessel.")),
            (RUNS, run_columns("kg"), tr("No run is open.")),
        ):
            self.tables[kind] = table = _table(columns, "code", empty)
            self.stack.addWidget(table)
            table.opened.connect(self.presenter.name)
            yield

    def _made_ranked(self) -> Panel:
        panel = Panel(density=DENSITY)
        choices = [
            Choice(TIES, tr("What ties most")),
            Choice(SOURCES, tr("Yards")),
            Choice(WASH, tr("A wash tonight")),
            Choice(RUNS, tr("Open runs")),
        ]
        self.kinds = Chooser(choices, tr("What is shown"), prints=False)
        self.kinds.setContentsMargins(0, tokens.STEPS[2], 0, tokens.STEPS[1])
        panel.add_part(self.kinds, padded=True)
        panel.set_body(self.stack)
        self.kinds.chosen.connect(self.show_kind)
        return panel

    def _made_one(self) -> Panel:
        panel = Panel(tr("What would go with one code"), density=DENSITY)
        self.code = CodeField(tr("Lot, jar, pallet, run, yard or supplier"), density=DENSITY)
        self.code.submitted.connect(lambda: self._named(self.code.text()))
        panel.add_part(self.code, padded=True)
        self.figures = KeyFigures(density=DENSITY)
        panel.add_part(self.figures)
        self.notes = Notes()
        panel.set_body(self.notes)
        bar = panel.add_bar()
        self.cases = bar.add_plain(tr("Recall cases"))
        self.cases.clicked.connect(lambda: self.asks.open.emit("recalls"))
        return panel

    def show_kind(self, kind: str) -> None:
        """Show one of the tables."""
        self.kinds.set_key(kind)
        self.table = self.tables[kind]
        self.stack.setCurrentWidget(self.table)

    # What is shown.

    def _show(self, page: ExposurePage) -> None:
        unit, whole = page.unit, page.whole
        self.answer.show_answer(tr("Recall exposure"), answer(whole, unit))
        columns: dict[str, Sequence[Any]] = {
            TIES: tie_columns(unit),
            SOURCES: source_columns(unit),
            WASH: wash_columns(unit),
            RUNS: run_columns(unit),
        }
        rows: dict[str, Sequence[Any]] = {
            TIES: ranked(whole),
            SOURCES: whole.sources,
            WASH: whole.washes,
            RUNS: page.runs,
        }
        for kind, table in self.tables.items():
            table.model.columns = tuple(columns[kind])
            table.show_rows(rows[kind])
        self._tell(page)

    def _tell(self, page: ExposurePage) -> None:
        said = [Message(Mark.NOTE, words) for words in self._words(page) if words]
        caution = tr("A recall may have to go wider: agree its scope with your authority.")
        how = tr("What a mix costs is an estimate, and the estimates overlap.")
        self.notes.show_messages([*said, Message(Mark.NOTE, caution, how)])

    def _words(self, page: ExposurePage) -> tuple[str, ...]:
        return (run_words(page.runs, page.unit), best_wash(page))

    def _named(self, text: str) -> None:
        if text.strip():
            self.presenter.name(text)

    def _show_called(self, called: Called) -> None:
        self.code.set_refused(False)
        page = self.presenter.page
        unit = page.unit if page is not None else "kg"
        shown = [KeyFigure(one.figure, one.meaning) for one in called_figures(called, unit)]
        heading = tr("Were {code} called back today").format(code=called.code)
        self.figures.show_figures(heading, shown)
        if page is not None:
            self._tell(page)

    def _refused(self, refusal: Refusal) -> None:
        self.figures.show_figures("", [])
        self.code.set_refused(bool(self.presenter.code))
        lead = tr("Nothing is reckoned.")
        self.notes.show_messages([Message(Mark.REFUSED, lead, refusal_words(refusal))])

    # What the window asks of a station.

    def begin(self) -> None:
        """Ask how it stands, and put the keyboard on what ties most."""
        self.presenter.open()
        self.table.take_focus()

    def take_code(self, code: str) -> bool:
        """A code that is scanned is what would be called back."""
        self.spread.show_part(1)
        self.code.set_text(code)
        self.presenter.name(code)
        return True

    def handle(self, action: str) -> bool:
        """Open the card, or the trace, of the row in hand."""
        return self.asks.of_row(action, self.table.selected_key())


def _table(columns: Sequence[Any], key: str, empty: str) -> Table:
    return Table(
        tuple(columns),
        lambda row: str(getattr(row, key)),
        density=DENSITY,
        empty=empty,
        sorts_itself=True,
    )
