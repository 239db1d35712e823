"""The lines of a small form: a lot each, with its fields; the arrows go up and down a column."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent

from honeyledger.desktop.models.asked import FormSpec, LineTyped, Typing
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asked_fields import made_field
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.domain.units import MassUnit

_STEPS = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class AskedLines(QObject):
    """The fields of all lines, made when they are first needed and used again.

    Args:
        label: what is said of a lot, by its place and its code.

    Signals:
        edited: an answer was changed, and is being typed in; "" when its field was left.
    """

    edited = Signal(str)

    def __init__(
        self, asking: Asking, form: Form, density: Density, label: Callable[[int, str], str]
    ) -> None:
        super().__init__()
        self._asking, self._form, self._density = asking, form, density
        self._label = label
        self._rows: dict[str, list[dict[str, Field]]] = {key: [] for key in asking.specs}
        self.last = ""
        """The lot whose line had the keyboard last."""

    def show_lines(self, spec: FormSpec, lines: Sequence[LineTyped]) -> bool:
        """Show what is typed of each; answers whether fields were made for it."""
        made = self._rows[spec.key]
        before = len(made)
        for at, line in enumerate(lines):
            if at == len(made):
                made.append(self._made(spec))
            self._show(spec, at, line)
        return len(made) > before

    def _show(self, spec: FormSpec, at: int, line: LineTyped) -> None:
        for ask in spec.line:
            field = self._rows[spec.key][at][ask.key]
            label = ask.label
            if ask is spec.line[0]:
                label = f"{self._label(at + 1, line.code)}: {ask.label}"
            field.set_label(label)
            field.editor.setAccessibleName(f"{line.code}, {ask.label}")
            field.set_refused(False)
            if field.text() != line.values.get(ask.key, ""):
                field.set_text(line.values.get(ask.key, ""))

    def _made(self, spec: FormSpec) -> dict[str, Field]:
        row: dict[str, Field] = {}
        parts: list[tuple[FormField, int]] = []
        reading = self._asking.reading()
        for ask in spec.line:
            field = made_field(ask, self._density, reading.today)
            assert isinstance(field, Field)
            if ask.typing is Typing.MASS and not ask.unit:
                field.set_unit(reading.unit)
            row[ask.key] = field
            field.edited.connect(lambda _text, key=ask.key: self.edited.emit(key))
            field.editor.editingFinished.connect(lambda: self.edited.emit(""))
            field.editor.installEventFilter(self)
            parts.append((field, ask.part))
        self._form.add_row(*parts)
        return row

    def show_only(self, kind: str, count: int) -> None:
        """Show so many lines of the form in hand, and none of the others."""
        for key, rows in self._rows.items():
            for at, row in enumerate(rows):
                for field in row.values():
                    field.setVisible(key == kind and at < count)

    def set_unit(self, unit: MassUnit) -> None:
        """The house's unit, which is known only since the first answer."""
        for key, rows in self._rows.items():
            for ask in self._asking.specs[key].line:
                for row in rows:
                    if ask.typing is Typing.MASS and not ask.unit:
                        row[ask.key].set_unit(unit)

    def read(self, kind: str, lines: Sequence[LineTyped]) -> tuple[LineTyped, ...]:
        """What stands in the fields of these lots."""
        found = []
        for line, row in zip(lines, self._rows[kind], strict=False):
            typed = {key: field.text() for key, field in row.items() if field.text()}
            found.append(LineTyped(line.code, typed))
        return tuple(found)

    def field(self, kind: str, name: str, code: str) -> FormField | None:
        """The field of a lot's answer; None where there is none."""
        lines = self._asking.typed[kind].lines
        for line, row in zip(lines, self._rows[kind], strict=False):
            if line.code == code:
                return row.get(name)
        return None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        where = self._where(watched)
        if where is None:
            return super().eventFilter(watched, event)
        at, key = where
        if event.type() == QEvent.Type.FocusIn:
            self.last = self._asking.now().lines[at].code
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            by = _STEPS.get(Qt.Key(event.key()))
            if by is not None:
                self._go_to(at + by, key)
                return True
        return super().eventFilter(watched, event)

    def _where(self, watched: QObject) -> tuple[int, str] | None:
        shown = len(self._asking.now().lines)
        for at, row in enumerate(self._rows[self._asking.kind][:shown]):
            for key, field in row.items():
                if field.editor is watched:
                    return at, key
        return None

    def _go_to(self, at: int, key: str) -> None:
        if 0 <= at < len(self._asking.now().lines):
            self._form.take_focus(self._rows[self._asking.kind][at][key])
