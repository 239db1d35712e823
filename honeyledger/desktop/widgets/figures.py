"""Key figures side by side, each with what it is below it; and the answer that opens a page."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.key_figure import KeyFigure as KeyFigure
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.text import Text, caption

_FIGURE_GAP = 24
_UNDER_FIGURES, _UNDER_WORDS = 11, 4
_LOW = 480


class _Figure(QWidget):
    def __init__(self, figure: KeyFigure, density: Density) -> None:
        super().__init__()
        self._figure = figure
        self._hand = Hand(Type.FIGURE, density)
        self._small = Hand(Type.CAPTION, colour="ink2")
        self.setAccessibleName(f"{figure.figure}, {figure.meaning}")
        self.setToolTip(f"{figure.figure} {figure.meaning}")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        wide = max(
            lettering.width([self._hand.run(self._figure.figure)]),
            lettering.width([self._small.run(self._figure.meaning)]),
        )
        return QSize(int(wide) + 1, self._hand.line + self._small.line)

    def minimumSizeHint(self) -> QSize:
        return QSize(40, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        width = float(self.width())
        top = QRectF(0, 0, width, self._hand.line)
        lettering.draw(painter, top, [self._hand.run(self._figure.figure)])
        under = QRectF(0, self._hand.line, width, self._small.line)
        lettering.draw(painter, under, [self._small.run(self._figure.meaning)])


class KeyFigures(QWidget):
    """A heading in caption, then figures side by side, under a hairline.

    Args:
        padded: whether it keeps a panel's padding at its sides; a part of a padded sheet does not.
    """

    def __init__(
        self, heading: str = "", *, density: Density = Density.FLOOR, padded: bool = True
    ) -> None:
        super().__init__()
        self._side = tokens.PANEL_SIDE - 1 if padded else 0
        self._density = density
        self._shown: list[QWidget] = []
        self._row = QHBoxLayout()
        self._row.setSpacing(_FIGURE_GAP)
        self._column = QVBoxLayout(self)
        self._column.setSpacing(0)
        self.heading = caption(heading, strong=True)
        self._column.addWidget(self.heading)
        self._column.addLayout(self._row)
        self._set_margins()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_figures(self, heading: str, figures: Sequence[KeyFigure], *rest: QWidget) -> None:
        """Show these; widgets such as a colour wedge stand after them."""
        self.heading.setText(heading)
        self.heading.setVisible(bool(heading))
        while (item := self._row.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                # Hidden first: the layout may still be about to show it, and would as a window.
                widget.hide()
                widget.setParent(None)
                widget.deleteLater()
        self._shown = [*(_Figure(figure, self._density) for figure in figures), *rest]
        for number, widget in enumerate(self._shown):
            # The room that is left stands between the figures, in equal parts.
            if number:
                self._row.addStretch(1)
            self._row.addWidget(widget)
        self._row.addStretch(1)
        self._set_margins()
        self._fit()
        self.updateGeometry()

    def _set_margins(self) -> None:
        """A line of words alone stands closer to what is under it."""
        below = _UNDER_FIGURES if self._shown else _UNDER_WORDS
        self._column.setContentsMargins(self._side, 5, self._side, below)

    def _fit(self) -> None:
        """A figure is shown whole or not at all; the last ones give way first."""
        left = self.width() - 2 * self._side
        for widget in self._shown:
            left -= widget.sizeHint().width()
            widget.setVisible(left >= 0)
            left -= _FIGURE_GAP

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _height(self) -> int:
        """The same whether all its figures have room or not, so that nothing under it moves."""
        margins = self._column.contentsMargins()
        heading = 0 if self.heading.isHidden() else self.heading.sizeHint().height()
        row = max((widget.sizeHint().height() for widget in self._shown), default=0)
        return margins.top() + heading + row + margins.bottom()

    def sizeHint(self) -> QSize:
        return QSize(320, self._height())

    def minimumSizeHint(self) -> QSize:
        return QSize(80, self._height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, 0, self.width(), 0)


class Answer(QWidget):
    """What a page is, in caption, and the sentence that answers its question.

    The sentence is never cut: it takes the lines it needs. Where the window is low, one of several
    lines takes the caption's room as well: places and tabs say there what page it is.
    """

    def __init__(self) -> None:
        super().__init__()
        self.page = Text("", Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink2"))
        self.sentence = Text("", Hand(Type.TITLE), wrap=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 8, 0, 8)
        column.setSpacing(0)
        column.addWidget(self.page)
        column.addWidget(self.sentence)
        self.setMinimumHeight(tokens.ANSWER_HEIGHT)

    def show_answer(self, page: str, sentence: str) -> None:
        """Say what page this is and what it answers."""
        self.page.setText(page)
        self.sentence.setText(sentence)
        self.setAccessibleName(f"{page}. {sentence}")
        self.sentence.setAccessibleDescription(page)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        lines = self.sentence.heightForWidth(self.width()) // Hand(Type.TITLE).line
        self.page.setHidden(lines > 1 and self.window().height() < _LOW)
