"""The language, then one line in five sizes to be read at arm's length: both are kept."""

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QButtonGroup, QRadioButton, QVBoxLayout, QWidget

from honeyledger.desktop import language, look, marks, tokens
from honeyledger.desktop.first_run.steps import tr
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.settings import SCALES

_SIDE = 16
_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
HUNDRED = 100


class _Line(QRadioButton):
    """The line in one size, as large as it would be.

    Args:
        now: the size the window has at this moment, in per cent.
    """

    def __init__(self, scale: str, now: str) -> None:
        super().__init__()
        self.scale = scale
        self._share = int(scale) / int(now)
        self.words = tr("Mill Lane, 36 supers, 412.5 kg")
        self.setText(self.words)
        self.setAccessibleName(tr("{scale} per cent").format(scale=scale))
        self.setProperty("ring", "here")
        high = round(tokens.type_size(Type.BODY, Density.FLOOR).line * self._share) + _SIDE
        self.setFixedHeight(max(tokens.TARGET_LEAST, high))

    def line_font(self) -> QFont:
        """The size this line would have."""
        made = QFont(look.font(Type.BODY, Density.FLOOR))
        made.setPixelSize(max(1, round(made.pixelSize() * self._share)))
        return made

    def sizeHint(self) -> QSize:
        return QSize(200, self.height())

    def minimumSizeHint(self) -> QSize:
        return QSize(120, self.height())

    def hitButton(self, _position: object) -> bool:
        return True

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect = QRectF(self.rect())
        chosen = self.isChecked()
        painter.setBrush(look.colour("act_tint" if chosen else "sheet"))
        painter.setPen(QPen(look.colour("act" if chosen else "edge"), tokens.FIELD_EDGE))
        edge = rect.adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(edge, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        if chosen:
            top = rect.center().y() - tokens.MARK_TABLE / 2
            marks.draw(painter, Mark.READY, _SIDE, top, tokens.MARK_TABLE)
        note = Hand(Type.CAPTION, colour="ink2").run(f"{self.scale} %")
        painter.setPen(look.colour("ink2"))
        painter.setFont(note.font)
        right = rect.adjusted(0, 0, -_SIDE, 0)
        painter.drawText(
            right, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, note.text
        )
        painter.setPen(look.colour("ink"))
        painter.setFont(self.line_font())
        left = rect.adjusted(_SIDE + tokens.MARK_TABLE + 12, 0, -_SIDE - note.width - 12, 0)
        painter.drawText(
            left, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self.words
        )


class Lines(QWidget):
    """The languages, and the five lines; arrows choose, Enter goes on.

    Signals:
        spoken: another language was chosen, by its short name.
        submitted: Enter was pressed on the chosen one.
        moved: the line that was chosen, to be kept in view.
    """

    spoken = Signal(str)
    submitted = Signal()
    moved = Signal(object)

    def __init__(self, now: str) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(tokens.PANEL_SIDE - 1, 8, tokens.PANEL_SIDE - 1, 8)
        column.setSpacing(8)
        # In all of them, for whoever reads only one.
        named = [(one, language.language_name(one)) for one in language.languages()]
        self.languages = ChoiceButtons(
            tr("Language · Idioma"), [Choice(*one) for one in named], density=Density.DESK
        )
        self.languages.set_key(language.worn())
        self.languages.chosen.connect(self._speak)
        column.addWidget(self.languages)
        self.lines = [_Line(scale, now) for scale in SCALES]
        for line in self.lines:
            self._group.addButton(line)
            column.addWidget(line)
            line.setChecked(line.scale == now)
            line.toggled.connect(lambda on, line=line: self.moved.emit(line) if on else None)
        column.addStretch(1)

    def _speak(self, short: str) -> None:
        if short != language.worn():
            self.spoken.emit(short)

    def scale(self) -> str:
        """The size chosen, in per cent."""
        return next(line.scale for line in self.lines if line.isChecked())

    def take_focus(self) -> None:
        """Put the keyboard on the chosen line."""
        line = next(one for one in self.lines if one.isChecked())
        line.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _KEYS:
            self.submitted.emit()
            return
        super().keyPressEvent(event)
