"""The bottling's sheet: its segments and what the jars hold; at rest, honey and jars on hand."""

from PySide6.QtCore import QObject, QSize, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QStackedWidget

from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.models.tied_words import tied_words
from honeyledger.desktop.stations.bottling import claim_words, rows
from honeyledger.desktop.stations.bottling.claims_view import Claims
from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.typed import CLOSE, LABELS, LEFT, START
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.twin_tables import TwinTables
from honeyledger.services.bottling_makeup import Makeup
from honeyledger.services.bottling_page import BottlingPage, product_in_hand

_PITCH = 40
COLUMNS_FROM = 960


class _SheetPanel(Panel):
    """A panel that says when its width changed.

    Signals:
        resized: how wide it is now.
    """

    resized = Signal(int)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit(self.width())


class _Pages(QStackedWidget):
    """Pages of which only the one that is seen asks for room."""

    def minimumSizeHint(self) -> QSize:
        page = self.currentWidget()
        return page.minimumSizeHint().expandedTo(page.minimumSize()) if page else QSize()


class BottlingSheetView(QObject):
    """A panel that shows what the form is about.

    Signals:
        opened: the code of a row that was opened.
        feed_chosen: the code of a drum or tank that is to be filled from.
        lot_chosen: the code of a jar lot whose labels are wanted.
    """

    opened = Signal(str)
    feed_chosen = Signal(str)
    lot_chosen = Signal(str)

    def __init__(self, presenter: BottlingPresenter) -> None:
        whole(self.pieces(presenter))

    def pieces(self, presenter: BottlingPresenter) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self._presenter = presenter
        self._narrow = True
        self.panel = _SheetPanel(self.tr("Bottling"))
        plan = TablePlan(pitch=_PITCH, foot_height=_PITCH)
        self.segments = Table(rows.segment_columns("kg"), lambda row: row.key, plan=plan)
        self.sources = self._sources(plan)
        yield
        self.feeds = Table(
            rows.feed_columns("kg"),
            lambda row: row.code,
            plan=plan,
            empty=self.tr("No honey to bottle. Ctrl+4 opens the floor, where drums are filled."),
        )
        self.planned = self._sources(plan)
        yield
        self.jars = Table(
            rows.jar_columns("kg"),
            lambda row: row.code,
            plan=plan,
            empty=self.tr("No jars yet. Start the first bottling."),
        )
        yield
        self.running = TwinTables(self.segments, self.sources)
        self.starting = TwinTables(self.feeds, self.planned)
        self.stack = _Pages()
        for page in (self.running, self.starting, self.jars):
            self.stack.addWidget(page)
        self.panel.set_body(self.stack)
        self.figures = KeyFigures()
        self.panel.add_part(self.figures)
        self.claims = Claims(self.tr("What the make-up allows; check your local labelling code"))
        self.panel.add_part(self.claims)
        self._add_bar()
        self.feeds.opened.connect(self.feed_chosen)
        self.jars.opened.connect(self.lot_chosen)
        self.panel.resized.connect(self._fit)
        self.segments.opened.connect(lambda key: self.opened.emit(rows.code_of(key)))

    def _sources(self, plan: TablePlan) -> Table:
        made = Table(rows.source_columns(), lambda row: row.code, plan=plan)
        made.opened.connect(self.opened)
        return made

    def _add_bar(self) -> None:
        bar = self.panel.add_bar()
        self.bar = bar
        self.close_it = bar.add_secondary(self.tr("Close this bottling…"))
        self.other = bar.add_plain(self.tr("Other bottling"))
        self.another = bar.add_plain(self.tr("Start another"))
        self.back = bar.add_secondary(self.tr("Back to the bottling"))
        self.turn = bar.add_plain("")
        presenter = self._presenter
        self.close_it.clicked.connect(lambda: presenter.choose(CLOSE))
        self.other.clicked.connect(lambda: presenter.take_in_hand(presenter.hand.next_open()))
        self.another.clicked.connect(lambda: presenter.take_in_hand(""))
        self.back.clicked.connect(lambda: presenter.take_in_hand(presenter.hand.next_open()))

    def chosen(self) -> str:
        """The code of the row that is chosen in the table with the keyboard, "" for none."""
        for table in (self.segments, self.sources, self.feeds, self.planned, self.jars):
            if table.view.hasFocus() and table.selected_key():
                return rows.code_of(table.selected_key())
        return ""

    def show_page(self, page: BottlingPage) -> None:
        """Show the station as it is."""
        whole(self.showing(page))

    def showing(self, page: BottlingPage) -> Making[None]:
        """Show the station as it is, a table a piece: all of it in one would hold the window."""
        unit = page.unit
        self._set_columns(page)
        self.feeds.show_rows(page.feeds)
        total = Total(rows.bare(sum(feed.grams for feed in page.feeds), unit), unit)
        self.feeds.show_totals(self.tr("To bottle from"), {"net": total} if page.feeds else {})
        yield
        self.jars.show_rows(page.jars)
        self.jars.show_totals(self.tr("In all"), rows.jar_totals(page.jars, unit))
        yield
        for table in (self.sources, self.planned):
            _show_sources(table, page.makeup, self.tr("{n} sources"), self.tr("1 source"))
            yield
        self.planned.setVisible(page.makeup is not None)
        self.show_typed()

    def _set_columns(self, page: BottlingPage) -> None:
        """Side by side there is room for all columns only in a wide window."""
        unit = page.unit
        narrow = self._narrow and page.makeup is not None
        for table, columns in (
            (self.segments, rows.segment_columns(unit, narrow=narrow)),
            (self.feeds, rows.feed_columns(unit, narrow=narrow)),
            (self.jars, rows.jar_columns(unit)),
        ):
            if [one.key for one in columns] != table.model.column_keys():
                table.model.set_columns(columns)
            table.model.columns = columns

    def _fit(self, width: int) -> None:
        narrow, page = width < COLUMNS_FROM, self._presenter.hand.page
        if narrow != self._narrow:
            self._narrow = narrow
            if page is not None:
                self.show_page(page)

    def show_typed(self) -> None:
        """Show what follows from what is typed and weighed."""
        hand = self._presenter.hand
        page, typed, filler = hand.page, hand.typed, hand.filler()
        if page is None:
            return
        sheet = page.sheet
        self.panel.set_heading(rows.heading(page, typed))
        if sheet is not None:
            made = rows.segment_rows(page, filler, typed)
            self.segments.show_rows(made)
            self.segments.show_totals(self.tr("Jars"), rows.segment_totals(made, page.unit))
            self.stack.setCurrentWidget(self.running)
        else:
            is_start = typed.kind in (START, LEFT)
            self.stack.setCurrentWidget(self.starting if is_start else self.jars)
        figures = rows.figures(page, filler, typed)
        tells = tied_words(page.tied, page.unit) if page.tied else ""
        self.figures.show_figures(tells, [KeyFigure(*figure) for figure in figures])
        product = product_in_hand(page, typed.product)
        origin = product.origin if product else ""
        against = page.against.get(product.key, ()) if product else ()
        made_claims = claim_words.claims(page.makeup, origin, against)
        made_claims = made_claims if typed.kind != LABELS else ()
        self.claims.show_claims(made_claims)
        self.claims.setVisible(bool(made_claims))
        self._show_bar(page)
        self.running.share()
        self.starting.share()
        self.stack.updateGeometry()

    def _show_bar(self, page: BottlingPage) -> None:
        is_open, count = page.sheet is not None, len(page.bottlings)
        self.close_it.setVisible(is_open)
        self.other.setVisible(is_open and count > 1)
        self.another.setVisible(is_open)
        self.back.setVisible(not is_open and count > 0)
        self.bar.setVisible(is_open or count > 0)


def _show_sources(table: Table, makeup: Makeup | None, many: str, one: str) -> None:
    made = rows.source_rows(makeup)
    table.show_rows(made)
    lead = one if len(made) == 1 else many.format(n=len(made))
    table.show_totals(lead, {"share": Total("100.0", "%")} if made else {})
