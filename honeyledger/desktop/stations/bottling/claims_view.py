"""What a label may claim of the jars, and what it may not: a mark, the first words, the rest."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.marks import COLOURS, Mark
from honeyledger.desktop.stations.bottling.claim_words import Claim
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.text import caption

_LINE = 26
_COLUMNS = 2
_TWO_FROM = 560


class _ClaimLine(QWidget):
    def __init__(self, claim: Claim) -> None:
        super().__init__()
        self._claim = claim
        self.setFixedHeight(_LINE)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        words = f"{claim.lead} {claim.text}"
        more = f"{words}\n{claim.more}" if claim.more else words
        self.setAccessibleName(more.replace("\n", ". "))
        self.setToolTip(more)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        claim, left = self._claim, tokens.MARK_BADGE + 8.0
        marks.draw(painter, claim.mark, 0, (_LINE - tokens.MARK_BADGE) / 2, tokens.MARK_BADGE)
        colour = COLOURS[claim.mark] if claim.mark in (Mark.WARNING, Mark.REFUSED) else "ink"
        lead = Hand(Type.BODY, Density.DESK, SEMIBOLD, colour).run(claim.lead)
        rest = Hand(Type.BODY, Density.DESK).run(f" {claim.text}")
        lettering.draw(painter, QRectF(left, 0, self.width() - left, _LINE), [lead, rest])


class Claims(QWidget):
    """The claims in two columns, in one where there is no room for two."""

    def __init__(self, heading: str) -> None:
        super().__init__()
        self._lines: list[_ClaimLine] = []
        self._shown: tuple[Claim, ...] = ()
        self._columns = 0
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(16)
        self._grid.setVerticalSpacing(0)
        column = QVBoxLayout(self)
        side = tokens.PANEL_SIDE - 1
        column.setContentsMargins(side, 5, side, 7)
        column.setSpacing(0)
        column.addWidget(caption(heading, strong=True))
        column.addLayout(self._grid)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_claims(self, claims: Sequence[Claim]) -> None:
        """Show these and no others."""
        if tuple(claims) == self._shown:
            return
        for line in self._lines:
            self._grid.removeWidget(line)
            line.hide()
            line.deleteLater()
        self._shown = tuple(claims)
        self._lines = [_ClaimLine(claim) for claim in self._shown]
        self._columns = 0
        self._place()

    def shown(self) -> tuple[Claim, ...]:
        """What stands there."""
        return self._shown

    def _place(self) -> None:
        columns = _COLUMNS if self.width() >= _TWO_FROM else 1
        if columns == self._columns:
            return
        self._columns = columns
        for at, line in enumerate(self._lines):
            self._grid.addWidget(line, at // columns, at % columns)
            line.show()
        for column in range(_COLUMNS):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)

    def resizeEvent(self, event: object) -> None:
        super().resizeEvent(event)  # type: ignore[arg-type]
        self._place()

    def minimumSizeHint(self) -> QSize:
        return QSize(160, super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, 0, self.width(), 0)
