"""The reserved place at the top of a form where a station speaks to the person.

It is always there and never moves anything: with nothing to say it names the next step. The worst
message stands first; after recording it says what happened and offers to reverse it.
"""

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Run
from honeyledger.desktop.marks import COLOURS, GROUNDS, Mark
from honeyledger.desktop.messages import Message, and_more, worst_first
from honeyledger.desktop.tokens import BOLD, SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.buttons import Button, Kind

SIDE = 20
# As long as a slow reader takes for what a slot can hold.
WHOLE_MS = 60_000


class MessageSlot(QWidget):
    """One message in its place: a line of body, or two of caption.

    Signals:
        action_pressed: what the shown message's action is about.
    """

    action_pressed = Signal(object)

    def __init__(
        self,
        next_step: str = "",
        *,
        density: Density = Density.FLOOR,
        tall: bool = False,
        ground: str = "sheet",
    ) -> None:
        super().__init__()
        self._density = density
        self._ground = ground
        self._side = SIDE
        self._next_step = next_step
        self._messages: list[Message] = []
        self.setFixedHeight(tokens.SLOT_TALL_HEIGHT if tall else tokens.SLOT_HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.action = Button("", Kind.PLAIN, density=Density.DESK)
        self.action.setParent(self)
        self.action.hide()
        self.action.clicked.connect(self._press)
        self._tell()

    def set_tight(self, tight: bool) -> None:
        """Keep little free at the sides, where it stands beside buttons in a narrow window."""
        self._side = tokens.STEPS[1] if tight else SIDE
        self._tell_width()
        self.update()

    def show_messages(self, messages: Iterable[Message]) -> None:
        """Say these and nothing else."""
        self._messages = worst_first(messages)
        self._tell()

    def set_next_step(self, sentence: str) -> None:
        """What the empty slot says."""
        self._next_step = sentence
        self._tell()

    def clear(self) -> None:
        """Back to the next step."""
        self.show_messages(())

    def shown(self) -> Message | None:
        """The message shown, or None for the next step."""
        return self._messages[0] if self._messages else None

    def sentence(self) -> str:
        """All of what the slot says, in words."""
        shown = self.shown()
        if shown is None:
            return self._next_step
        behind = len(self._messages) - 1
        return f"{shown.sentence} ({and_more(behind)})" if behind else shown.sentence

    def _tell(self) -> None:
        self.setAccessibleName(self.sentence())
        whole = "\n".join(message.sentence for message in self._messages)
        self.setToolTip(whole if len(self._messages) > 1 or self.is_cut() else "")
        shown = self.shown()
        self.action.setVisible(bool(shown and shown.action))
        if shown and shown.action:
            self.action.setText(shown.action)
            self._place_action()
        if shown is not None:
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))
        self.update()

    def _press(self) -> None:
        shown = self.shown()
        if shown is not None:
            self.action_pressed.emit(shown.about)

    def _place_action(self) -> None:
        size = self.action.sizeHint()
        top = (self.height() - size.height()) // 2
        self.action.setGeometry(self.width() - size.width() - 8, top, size.width(), size.height())

    def show_whole(self) -> None:
        """Show all that is not seen of it, until a key or a press; nothing where all is seen."""
        if self.toolTip():
            below = self.mapToGlobal(self.rect().bottomLeft())
            QToolTip.showText(below, self.toolTip(), self, self.rect(), WHOLE_MS)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        # A finger in a glove has no other way to it.
        self.show_whole()
        super().mousePressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_action()
        self._tell_width()

    def _tell_width(self) -> None:
        if len(self._messages) <= 1:
            self.setToolTip(self.sentence() if self.is_cut() else "")

    def sizeHint(self) -> QSize:
        return QSize(320, self.height())

    def _ink(self, mark: Mark) -> str:
        return "on_state" if mark is Mark.REFUSED else "ink"

    def _words(self, kind: Type) -> list[Run]:
        """The sentence in one size, its first words in the mark's colour."""
        shown = self.shown()
        if shown is None:
            return lettering.runs(self._next_step, Hand(kind, self._density, colour="ink2"))
        refused = shown.mark is Mark.REFUSED
        lead_colour = "on_state" if refused else COLOURS[shown.mark]
        weight = SEMIBOLD if shown.text else None
        lead = Hand(kind, self._density, BOLD if shown.text else weight, lead_colour)
        rest = Hand(kind, self._density, colour=self._ink(shown.mark))
        made = lettering.runs(shown.lead, lead)
        if shown.text:
            made += lettering.runs(" " + shown.text, rest)
        behind = len(self._messages) - 1
        if behind:
            note = Hand(Type.CAPTION, colour="on_state" if refused else "ink2")
            made.append(note.run("  " + and_more(behind)))
        return made

    def _room(self) -> QRectF:
        left = self._side + (tokens.MARK_MESSAGE + 10.0 if self._messages else 0.0)
        right = self.width() - min(16.0, self._side)
        # Not isVisible: the slot may be asked before its window is shown.
        if not self.action.isHidden():
            right = self.action.x() - 8.0
        return QRectF(left, 0, max(0.0, right - left), self.height())

    def _lines(self) -> list[list[Run]]:
        """One line of body; where it does not fit, two lines of caption."""
        room = self._room().width()
        line = self._words(Type.BODY)
        if lettering.width(line) <= room:
            return [line]
        return lettering.run_lines(self._words(Type.CAPTION), room, self._most_lines())

    def _most_lines(self) -> int:
        return 3 if self.height() >= tokens.SLOT_TALL_HEIGHT else 2

    def is_cut(self) -> bool:
        """Whether part of the sentence is not seen."""
        room = self._room().width()
        return any(lettering.width(line) > room + 0.5 for line in self._lines())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        shown = self.shown()
        rect = QRectF(self.rect())
        if self._ground == "well":
            rect.adjust(0, 1, 0, 0)  # The hairline over the bar it stands in goes on.
        if shown is None:
            painter.fillRect(rect, look.colour(self._ground))
        elif shown.mark is Mark.REFUSED:
            painter.fillRect(rect, look.colour("alert"))
        else:
            painter.fillRect(rect, look.colour(GROUNDS.get(shown.mark, self._ground)))
            if shown.mark in GROUNDS:
                bar = QRectF(0, 0, tokens.SELECTION_BAR, rect.height())
                painter.fillRect(bar, look.colour(COLOURS[shown.mark]))
        if shown is not None:
            top = (rect.height() - tokens.MARK_MESSAGE) / 2
            colour = "on_state" if shown.mark is Mark.REFUSED else ""
            marks.draw(painter, shown.mark, self._side, top, tokens.MARK_MESSAGE, colour)
        self._paint_lines(painter)

    def _paint_lines(self, painter: QPainter) -> None:
        room = self._room()
        lines = self._lines()
        kind = Type.BODY if len(lines) == 1 else Type.CAPTION
        step = tokens.type_size(kind, self._density).line
        top = room.center().y() - step * len(lines) / 2
        for line in lines:
            lettering.draw(painter, QRectF(room.left(), top, room.width(), step), line)
            top += step

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            self.update()
        super().changeEvent(event)

    def focus_action(self) -> None:
        """Put the keyboard on the offer to reverse, where there is one."""
        if not self.action.isHidden():
            self.action.setFocus(Qt.FocusReason.OtherFocusReason)


def show_whole(page: QWidget) -> None:
    """Show all that the slots of a page say where part of it is not seen."""
    for slot in page.findChildren(MessageSlot):
        if slot.isVisible():
            slot.show_whole()
