"""The card of a lot: what it is and where, what is in it, what happened to it, and what is next.

Its top left corner is cut and has the hole of a stack tag, the one ornament there is.
"""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QMenu, QScrollArea, QVBoxLayout, QWidget

from honeyledger.desktop import look, style, tokens
from honeyledger.desktop.models.lot_card import LotCardFacts
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.action_bar import ActionBar
from honeyledger.desktop.widgets.buttons import Button, IconButton, Kind
from honeyledger.desktop.widgets.card_parts import (
    CUT,
    HOLE,
    HOLE_AT,
    CardHead,
    EventRow,
    FactRow,
    OriginBar,
    QualityRow,
)
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.text import caption
from honeyledger.desktop.widgets.wedge import Wedge


def tag_path(rect: QRectF) -> QPainterPath:
    """The outline of a tag: rounded, its top left corner cut, its hole left out."""
    radius = float(tokens.RADIUS_PANEL)
    path = QPainterPath(QPointF(rect.left() + CUT, rect.top()))
    path.lineTo(rect.right() - radius, rect.top())
    path.arcTo(QRectF(rect.right() - 2 * radius, rect.top(), 2 * radius, 2 * radius), 90, -90)
    path.lineTo(rect.right(), rect.bottom() - radius)
    path.arcTo(
        QRectF(rect.right() - 2 * radius, rect.bottom() - 2 * radius, 2 * radius, 2 * radius),
        0,
        -90,
    )
    path.lineTo(rect.left() + radius, rect.bottom())
    path.arcTo(QRectF(rect.left(), rect.bottom() - 2 * radius, 2 * radius, 2 * radius), 270, -90)
    path.lineTo(rect.left(), rect.top() + CUT)
    path.closeSubpath()
    hole = QPainterPath()
    centre = QPointF(rect.left() + HOLE_AT, rect.top() + HOLE_AT)
    hole.addEllipse(centre, HOLE / 2, HOLE / 2)
    return path.subtracted(hole)


_ROOM_FOR_THREE = 420


def _told(then: Callable[[str], object], word: str) -> Callable[[], object]:
    return lambda: then(word)


class LotCard(QWidget):
    """The card of one lot.

    Signals:
        closed: it was put away.
        print_asked, trace_asked, sheet_asked: the code whose label, trace or pull sheet is wanted.
        papers_asked: the code whose other papers are to be chosen from.
        complaint_asked: the code that a complaint is about.
        entry_asked: the entry of a sentence of the history.
    """

    closed = Signal()
    print_asked = Signal(str)
    trace_asked = Signal(str)
    sheet_asked = Signal(str)
    papers_asked = Signal(str)
    complaint_asked = Signal(str)
    entry_asked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._code = ""
        self.takes_complaints = True
        self.complaint: Button | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        self.head = CardHead()
        self.slot = MessageSlot(density=Density.DESK)
        self._body = QScrollArea()
        self._body.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self._body)
        self._body.setWidgetResizable(True)
        self._body.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._body.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        # The card's own ground shows through, with its cut corner.
        self._body.viewport().setAutoFillBackground(False)
        self.bar = ActionBar(density=Density.DESK)
        self.trace = self.bar.add_primary(self.tr("Trace it"))
        self.print = self.bar.add_secondary(self.tr("Print its label"))
        self.sheet = self.bar.add_secondary(self.tr("Pull sheet"))
        self.papers = self.bar.add_secondary(self.tr("Papers…"))
        self.away = IconButton("close", self.tr("Close the card"))
        self.away.setParent(self)
        column.addWidget(self.head)
        column.addWidget(self.slot)
        column.addWidget(self._body, 1)
        column.addWidget(self.bar)
        self.trace.clicked.connect(lambda: self.trace_asked.emit(self._code))
        self.print.clicked.connect(lambda: self.print_asked.emit(self._code))
        self.sheet.clicked.connect(lambda: self.sheet_asked.emit(self._code))
        self.papers.clicked.connect(lambda: self.papers_asked.emit(self._code))
        self.away.clicked.connect(self.closed)
        self.setAccessibleName(self.tr("Card of a lot"))

    def code(self) -> str:
        """The lot shown."""
        return self._code

    def show_facts(self, facts: LotCardFacts) -> None:
        """Show a lot."""
        self._code = facts.code
        self.setAccessibleName(self.tr("Card of {code}").format(code=facts.code))
        self.head.show_facts(facts)
        self.slot.show_messages(facts.messages)
        self.slot.setVisible(bool(facts.messages))
        self.print.setVisible(facts.can_print)
        self.trace.setVisible(facts.can_trace)
        self.sheet.setVisible(facts.has_sheet)
        # Beside its sheet there is no room for more: what a yard's label has is its code.
        short = self.tr("Label") if facts.has_papers else self.tr("Print its label")
        self.print.setText(self.tr("Code") if facts.has_sheet else short)
        self.print.setAccessibleName(self.tr("Print its label"))
        self.papers.setVisible(facts.has_papers)
        buttons = (self.trace, self.print, self.sheet, self.papers)
        self.bar.setVisible(not all(one.isHidden() for one in buttons))
        sheet = self._sheet(facts)
        self._body.setWidget(sheet)
        # The scroll area would fill it with the page's ground.
        sheet.setAutoFillBackground(False)

    def _sheet(self, facts: LotCardFacts) -> QWidget:
        sheet = QWidget()
        column = QVBoxLayout(sheet)
        side = tokens.PANEL_SIDE - 1
        column.setContentsMargins(side, 8, side, 16)
        column.setSpacing(4)
        if facts.figures:
            figures = KeyFigures(density=Density.DESK, padded=False)
            made = [KeyFigure(figure, meaning) for figure, meaning in facts.figures]
            figures.show_figures("", made)
            column.addWidget(figures)
        self.complaint = self._complaint(facts)
        if self.complaint is not None:
            column.addWidget(self.complaint, 0, Qt.AlignmentFlag.AlignLeft)
        if facts.has_colour:
            column.addSpacing(8)
            column.addWidget(caption(self.tr("Colour"), strong=True))
            wedge = Wedge(facts.pfund_mm, mean=facts.is_mean)
            column.addWidget(wedge, 0, Qt.AlignmentFlag.AlignLeft)
        if facts.origins:
            column.addSpacing(8)
            column.addWidget(caption(self.tr("Origin, by share"), strong=True))
            bar = OriginBar()
            bar.show_origins(facts.origins)
            column.addWidget(bar)
        told = (self.tr("Quality"), facts.quality), (self.tr("Blended in it"), facts.blends)
        for heading, rows in told:
            if rows:
                column.addSpacing(8)
                column.addWidget(caption(heading, strong=True))
                for one in rows:
                    column.addWidget(QualityRow(one))
                column.addSpacing(8)
        for fact in facts.facts:
            column.addWidget(FactRow(fact))
        if facts.history:
            column.addSpacing(8)
            column.addWidget(caption(self.tr("What happened"), strong=True))
            for event in facts.history:
                row = EventRow(event)
                row.asked.connect(self.entry_asked)
                column.addWidget(row)
        column.addStretch(1)
        return sheet

    def _complaint(self, facts: LotCardFacts) -> Button | None:
        """Beside the others there is no room for it; of a yard nobody complains."""
        if not self.takes_complaints or not facts.can_trace or facts.has_sheet:
            return None
        made = Button(self.tr("Take in a complaint"), Kind.PLAIN, density=Density.DESK)
        made.clicked.connect(lambda: self.complaint_asked.emit(self._code))
        return made

    def resizeEvent(self, event: object) -> None:
        super().resizeEvent(event)  # type: ignore[arg-type]
        self.away.move(self.width() - tokens.TARGET_LEAST - 4, 4)
        self.away.raise_()
        # A hold with its way and its reason takes three lines, where the card has room for them.
        tall = self.height() >= _ROOM_FOR_THREE
        self.slot.setFixedHeight(tokens.SLOT_TALL_HEIGHT if tall else tokens.SLOT_HEIGHT)

    def choose_paper(
        self, papers: Sequence[tuple[str, str]], then: Callable[[str], object]
    ) -> QMenu:
        """Offer papers, each its word and what it is called, above the button that asked."""
        menu = QMenu(self)
        menu.setStyle(style.measured())
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for word, title in papers:
            menu.addAction(title).triggered.connect(_told(then, word))
        menu.setActiveAction(menu.actions()[0])
        at = QPoint(0, -menu.sizeHint().height())
        menu.popup(self.papers.mapToGlobal(at))
        return menu

    def keyPressEvent(self, event: object) -> None:
        if getattr(event, "key", int)() == Qt.Key.Key_Escape:
            self.closed.emit()
            return
        super().keyPressEvent(event)  # type: ignore[arg-type]

    def take_focus(self) -> None:
        """Put the keyboard on what is done next."""
        for button in (self.trace, self.print, self.sheet, self.papers, self.away):
            if not button.isHidden():
                button.setFocus(Qt.FocusReason.OtherFocusReason)
                return

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        path = tag_path(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.fillPath(path, look.colour("sheet"))
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
