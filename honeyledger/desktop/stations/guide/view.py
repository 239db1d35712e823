"""The guide: its pages at the left, found by a word; the one in hand at the right; Esc goes."""

from pathlib import Path

from PySide6.QtCore import QEvent, Qt, QUrl
from PySide6.QtGui import QKeySequence, QShortcut, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QTextBrowser, QTextEdit, QVBoxLayout, QWidget

from honeyledger.desktop import look, style, tokens
from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.language import guide_folder
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.guide.pages import FIRST, GuidePage, found_in, read_pages
from honeyledger.desktop.stations.guide.setting import page_html, style_sheet, tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.fields import TextField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table

GUIDE = "guide"
DOCK = "dock"
_PAGE = 1
_MARGIN = 20


class PageBrowser(QTextBrowser):
    """One page, in our own type."""

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.setSearchPaths([str(folder)])
        self.page: GuidePage | None = None
        self._words: tuple[str, ...] = ()
        self.setFrameShape(QTextBrowser.Shape.NoFrame)
        self.setOpenLinks(False)
        self.setProperty("ring", "here")
        style.wear_bars(self)
        self.document().setDocumentMargin(_MARGIN)
        self._dress()

    def show_page(self, page: GuidePage, words: str = "") -> None:
        """Show a page from its top, with these words marked in it."""
        self.page, self._words = page, tuple(words.split())
        self.setAccessibleName(page.title)
        self._dress()
        self.moveCursor(QTextCursor.MoveOperation.Start)
        self.verticalScrollBar().setValue(0)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._dress()

    def _dress(self) -> None:
        """Set the page anew in the theme in use."""
        at = self.verticalScrollBar().value()
        self.document().setDefaultStyleSheet(style_sheet())
        if self.page is not None:
            self.setHtml(page_html(self.page))
            self._mark_words()
        self.verticalScrollBar().setValue(at)

    def _mark_words(self) -> None:
        marked = []
        for word in self._words:
            cursor = self.document().find(word)
            while not cursor.isNull():
                selection = QTextEdit.ExtraSelection()
                selection.cursor = cursor
                shape = QTextCharFormat()
                shape.setBackground(look.colour("act_tint"))
                selection.format = shape
                marked.append(selection)
                cursor = self.document().find(word, cursor)
        self.setExtraSelections(marked)


class GuideView:
    """The page of the guide. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self._desk = desk
        self._back = DOCK
        self.widget = QWidget()
        self.asks = StationAsks()
        self.pages = read_pages(guide_folder(desk.assets))
        yield
        self.browser = PageBrowser(guide_folder(desk.assets))
        self.browser.anchorClicked.connect(self._follow)
        columns: tuple[Column[GuidePage], ...] = (
            Column(
                "title",
                tr("Pages"),
                lambda page: page.title,
                ColumnKind.NAME,
                note=lambda page: page.summary,
                strong=True,
            ),
        )
        empty = tr("No page has that word.")
        self.table = Table(columns, lambda page: page.key, density=Density.DESK, empty=empty)
        self.table.view.setAccessibleName(tr("Pages of the guide"))
        self.table.opened.connect(self._open)
        self.table.view.clicked.connect(lambda _index: self._open(self.table.selected_key()))
        self.search = TextField(tr("Find in the guide"), density=Density.DESK)
        self.search.edited.connect(self._find)
        self.search.submitted.connect(self._open_first)
        yield
        self.spread = Spread(
            [
                Part(self._pages_panel(), tr("Pages"), 4, 3),
                Part(self._page_panel(), tr("Page"), 8, 5),
            ]
        )
        self.spread.fill(self.widget)
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self.widget)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(self.leave)
        yield
        self.table.show_rows(self.pages)
        self.show_page(FIRST)

    def _pages_panel(self) -> Panel:
        panel = Panel(tr("Guide"), density=Density.DESK)
        top = QWidget()
        row = QVBoxLayout(top)
        side = tokens.PANEL_SIDE - 1
        row.setContentsMargins(side, 0, side, 12)
        row.addWidget(self.search)
        panel.add_part(top)
        panel.set_body(self.table)
        return panel

    def _page_panel(self) -> Panel:
        panel = Panel(density=Density.DESK)
        panel.set_body(self.browser)
        bar = panel.add_bar()
        self.to_keys = bar.add_secondary(tr("Every key"))
        self.back = bar.add_plain(tr("Back to work"))
        self.to_keys.clicked.connect(lambda: self.asks.open.emit("keys"))
        self.back.clicked.connect(self.leave)
        return panel

    # What is shown.

    def show_page(self, key: str) -> bool:
        """Show a page by its name: whether there is one."""
        page = next((one for one in self.pages if one.key == key), None)
        if page is None:
            return False
        self.browser.show_page(page, self.search.text())
        self.table.select(key)
        return True

    def _find(self, words: str) -> None:
        self.table.show_rows(found_in(self.pages, words))

    def _open_first(self) -> None:
        hits = found_in(self.pages, self.search.text())
        if hits:
            self._open(hits[0].key)

    def _open(self, key: str) -> None:
        if key and self.show_page(key):
            self._read()

    def _follow(self, link: QUrl) -> None:
        self._open(link.toString())

    def _read(self) -> None:
        """Put the keyboard on the page, where the arrows and Page Down go through it."""
        self.spread.show_part(_PAGE)
        self.browser.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Back to where one was."""
        self.asks.open.emit(self._back)

    # What the window asks of a station.

    def begin(self) -> None:
        """Open the page about the station one came from; in the guide itself, the word to find."""
        came = self._desk.came_from
        if came == GUIDE:
            self._look_for()
            return
        self._back = came or DOCK
        if self.search.text():
            self.search.clear()
            self._find("")
        if not self.show_page(came):
            self.show_page(FIRST)
        self._read()

    def _look_for(self) -> None:
        self.spread.show_part(0)
        self.search.take_focus()

    def take_code(self, _code: str) -> bool:
        """Its card opens."""
        return False

    def handle(self, action: str) -> bool:
        """Find a word in the guide."""
        if action != "find":
            return False
        self._look_for()
        return True
