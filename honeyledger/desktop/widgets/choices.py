"""Fields whose value is one of several: a yard, a crew, a box, a day.

Typing narrows the list to what contains the letters; Down, or the arrow at the right, opens all of
it. What is typed and matches nothing stays as typed, for the parser to refuse in words.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from PySide6.QtCore import (
    QAbstractListModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter
from PySide6.QtWidgets import (
    QCompleter,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)

from honeyledger.desktop import lettering, look, style, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.days import day_note, format_day, parse_day, recent_days
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.buttons import IconButton
from honeyledger.desktop.widgets.fields import Field

_Index = QModelIndex | QPersistentModelIndex
_NONE = QModelIndex()
# Each letter that is typed asks for the text of every choice.
_TEXT_ROLES = frozenset((Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole))


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose: its key, how it is called, and a note beside it ("56 colonies")."""

    key: str
    text: str
    note: str = ""


class ChoicesModel(QAbstractListModel):
    """The choices of one field."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.choices: tuple[Choice, ...] = ()
        # A large house has thousands to choose from, and at each key it is asked what is chosen.
        self._keys: dict[str, list[str]] | None = None

    def show(self, choices: Sequence[Choice]) -> None:
        """Offer other choices."""
        self.beginResetModel()
        self.choices = tuple(choices)
        self._keys = None
        self.endResetModel()

    def keys_of(self, text: str) -> Sequence[str]:
        """The keys of the choices of this text, in any case."""
        if self._keys is None:
            self._keys = {}
            for choice in self.choices:
                self._keys.setdefault(choice.text.casefold(), []).append(choice.key)
        return self._keys.get(text.casefold(), ())

    def rowCount(self, parent: _Index = _NONE) -> int:
        return 0 if parent.isValid() else len(self.choices)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        choice = self.choices[index.row()]
        if role in _TEXT_ROLES:
            return choice.text
        if role == Qt.ItemDataRole.UserRole:
            return choice
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{choice.text}, {choice.note}" if choice.note else choice.text
        return None


class _ChoiceRows(QStyledItemDelegate):
    """Rows of the open list, as high as a table's."""

    def __init__(self, density: Density, parent: QObject) -> None:
        super().__init__(parent)
        self._density = density

    def sizeHint(self, _option: QStyleOptionViewItem, _index: _Index) -> QSize:
        return QSize(120, tokens.row_height(self._density))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        choice: Choice = index.data(Qt.ItemDataRole.UserRole)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        rect = QRectF(option.rect)
        painter.fillRect(rect, look.colour("act_tint" if chosen else "sheet"))
        if chosen:
            bar = QRectF(rect.left(), rect.top(), tokens.SELECTION_BAR, rect.height())
            painter.fillRect(bar, look.colour("act"))
        inner = rect.adjusted(12, 0, -12, 0)
        note = [Hand(Type.CAPTION, colour="ink2").run(choice.note)]
        lettering.draw(painter, inner, note, Side.RIGHT)
        room = inner.adjusted(0, 0, -lettering.width(note) - 12, 0)
        text = lettering.runs(choice.text, Hand(Type.BODY, self._density))
        lettering.draw(painter, room, text)


class ChoiceField(Field):
    """A field that is one of several choices.

    Enter takes the only choice left in the open list, unless `is_free`: then the choices are what
    was said before, and something new may be meant by the beginning of one of them.
    """

    chosen = Signal(str)

    def __init__(
        self,
        label: str,
        choices: Sequence[Choice] = (),
        *,
        density: Density = Density.FLOOR,
    ) -> None:
        super().__init__(label, density=density)
        self._key = ""
        self.is_free = False
        self._model = ChoicesModel(self)
        self._made: QCompleter | None = None
        self.editor.returnPressed.disconnect(self.submitted)
        self.editor.returnPressed.connect(self._returned)
        self.arrow = IconButton("down", self.tr("show all"), colour="ink2")
        self.arrow.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.arrow.clicked.connect(self.open_all)
        self.box.row.addWidget(self.arrow)
        self.box.row.setContentsMargins(12, 2, 4, 2)
        self.editor.installEventFilter(self)
        self.set_choices(choices)

    def _completer(self) -> QCompleter:
        """What opens the list; made when it is first needed, as most lists stay shut."""
        if self._made is None:
            self._made = self._completed()
            self.editor.setCompleter(self._made)
        return self._made

    def _completed(self) -> QCompleter:
        made = QCompleter(self._model, self)
        made.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        made.setFilterMode(Qt.MatchFlag.MatchContains)
        made.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        made.setMaxVisibleItems(8)
        popup = QListView()
        popup.setMouseTracking(True)
        # Else each of thousands of rows is asked how high it is, at every letter.
        popup.setUniformItemSizes(True)
        style.wear_bars(popup)
        made.setPopup(popup)
        # QCompleter takes its popup's delegate from us only if it is set after the popup is.
        popup.setItemDelegate(_ChoiceRows(self.density, popup))
        # Two signals bear this name; the one with an index tells apart choices of the same text.
        made.activated[QModelIndex].connect(self._take_index)  # type: ignore[index]
        return made

    @property
    def popup(self) -> QListView:
        """The list that opens under the field."""
        view = self._completer().popup()
        assert isinstance(view, QListView)
        return view

    def set_choices(self, choices: Sequence[Choice]) -> None:
        """Offer other choices; the text stays."""
        self._model.show(choices)

    def choices(self) -> tuple[Choice, ...]:
        """What can be chosen."""
        return self._model.choices

    def key(self) -> str:
        """The key of what is chosen, or "" where the text is none of the choices, or several."""
        keys = self._model.keys_of(self.text().strip())
        if self._key in keys:
            return self._key
        return keys[0] if len(set(keys)) == 1 else ""

    def set_key(self, key: str) -> None:
        """Choose by key; `edited` and `chosen` are not sent."""
        for choice in self._model.choices:
            if choice.key == key:
                self._show(choice)
                return
        self.clear()

    def open_all(self) -> None:
        """Open the whole list, whatever is typed."""
        self.editor.setFocus(Qt.FocusReason.OtherFocusReason)
        self._completer().setCompletionPrefix("")
        self._completer().complete(self.box.rect().translated(0, 0))

    def _show(self, choice: Choice) -> None:
        self._key = choice.key
        self.set_text(choice.text)
        self.set_unit(choice.note)

    def _typed(self, text: str) -> None:
        self._key = ""
        self.set_unit("")
        super()._typed(text)

    def _take_index(self, index: QModelIndex) -> None:
        choice: Choice = index.data(Qt.ItemDataRole.UserRole)
        self._show(choice)
        self.set_refused(False)
        self.edited.emit(choice.text)
        self.chosen.emit(choice.key)
        self.submitted.emit()

    def _returned(self) -> None:
        """Enter: the open list has it first; one match alone is what was meant."""
        if self._is_open():
            if self.popup.currentIndex().isValid():
                return
            self.popup.hide()
            matches = self._completer().completionModel()
            if matches.rowCount() == 1 and not self.is_free:
                self._take_index(matches.index(0, 0))
                return
        self.submitted.emit()

    def _is_open(self) -> bool:
        return self._made is not None and self.popup.isVisible()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QFocusEvent) and event.gotFocus():
            self._completer()
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and self._key_pressed(event)
        ):
            return True
        return super().eventFilter(watched, event)

    def _key_pressed(self, event: QKeyEvent) -> bool:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_F4) and not self._is_open():
            self.open_all()
            return True
        return False


class DateField(ChoiceField):
    """A day: typed, stepped with Up and Down, or chosen from the last fortnight."""

    def __init__(self, label: str, today: date, *, density: Density = Density.FLOOR) -> None:
        self._today = today
        super().__init__(label, density=density)
        self.arrow.setToolTip(self.tr("show the last days"))
        self.set_today(today)
        self.editor.editingFinished.connect(self._tidy)

    def set_today(self, today: date) -> None:
        """Begin the list at another day, after midnight."""
        self._today = today
        self.set_choices(
            [
                Choice(day.isoformat(), format_day(day), day_note(day, today))
                for day in recent_days(today)
            ]
        )

    def day(self) -> date | None:
        """The day, or None where the text is not one."""
        return parse_day(self.text(), self._today)

    def set_day(self, day: date) -> None:
        """Show a day."""
        self.set_text(format_day(day))

    def _show(self, choice: Choice) -> None:
        self.set_text(choice.text)

    def _tidy(self) -> None:
        day = self.day()
        if day is not None:
            self.set_day(day)

    def _key_pressed(self, event: QKeyEvent) -> bool:
        by = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}.get(Qt.Key(event.key()))
        if by is None or self._is_open():
            return super()._key_pressed(event)
        day = self.day()
        if day is not None:
            day = min(self._today, day + timedelta(days=by))
            self.set_day(day)
            self._typed(self.text())
        return True
