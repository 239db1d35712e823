"""The field of one thing that is asked, what is read from it and shown in it; those of all forms.

A form's fields are made when it is first in hand: a station opens on one form and mostly stays.
"""

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.models.asked import SEPARATOR, Ask, FormSpec, Typing
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, DateField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.domain.units import MassUnit


def made_field(ask: Ask, density: Density, today: date) -> FormField:
    """The field by which it is asked."""
    match ask.typing:
        case Typing.CHOICE | Typing.FREE:
            made = ChoiceField(ask.label, density=density)
            made.is_free = ask.typing is Typing.FREE or ask.many
            return made
        case Typing.COUNT:
            return CountField(ask.label, density=density)
        case Typing.MASS:
            return MassField(ask.label, unit=ask.unit or "kg", density=density)
        case Typing.DAY:
            return DateField(ask.label, today, density=density)
        case Typing.BUTTONS:
            choices = [Choice(key, word) for key, word in ask.buttons]
            return ChoiceButtons(ask.label, choices, density=density, in_row=ask.in_row)
        case _:
            return TextField(ask.label, unit=ask.unit, density=density)


def text_of(field: FormField, ask: Ask) -> str:
    """What is typed: the key of what was chosen, else the text."""
    if isinstance(field, ChoiceButtons):
        return field.key()
    if isinstance(field, ChoiceField) and ask.typing in (Typing.CHOICE, Typing.FREE):
        if ask.many:
            return _codes(field)
        return field.key() or field.text()
    return field.text()


def _codes(field: ChoiceField) -> str:
    """Of several codes with commas between them, what was chosen from the list as its key."""
    return field.key() if field.key() and SEPARATOR.strip() not in field.text() else field.text()


def show_text(field: FormField, ask: Ask, text: str) -> None:
    """Show an answer; nothing is reported as typed."""
    if isinstance(field, ChoiceButtons):
        field.set_key(text)
        return
    if text_of(field, ask) == text:
        return
    if isinstance(field, ChoiceField) and not isinstance(field, DateField) and not ask.many:
        if text in [choice.key for choice in field.choices()]:
            field.set_key(text)
            return
        field.set_unit("")
    field.set_text(text)


def refuse_field(field: FormField, refused: bool) -> None:
    """Mark the field whose answer was refused."""
    if isinstance(field, Field):
        field.set_refused(refused)


class AskedFields(QObject):
    """The fields of every form of a station, by the form's kind and the answer's key.

    Args:
        entered: what Enter does first in the field that adds lines.

    Signals:
        edited: an answer was changed, and is being typed in; "" when its field was left.
        came: fields of another form were made.
    """

    edited = Signal(str)
    came = Signal()

    def __init__(
        self, asking: Asking, form: Form, density: Density, entered: Callable[[], bool]
    ) -> None:
        super().__init__()
        self._asking, self._form, self._density = asking, form, density
        self._entered = entered
        self._made: dict[str, dict[str, FormField]] = {}
        self._offers: dict[str, Sequence[Choice]] = {}
        self._unit: MassUnit | None = None

    def __getitem__(self, kind: str) -> dict[str, FormField]:
        """The fields of a form, made when they are first asked for."""
        if kind not in self._made:
            self._make(self._asking.specs[kind])
        return self._made[kind]

    def _make(self, spec: FormSpec) -> None:
        made = self._made[spec.key] = {}
        for row in spec.rows:
            parts: list[tuple[FormField, int]] = []
            for ask in row:
                field = made_field(ask, self._density, self._asking.reading().today)
                made[ask.key] = field
                self._listen(field, ask)
                if spec.key != self._asking.kind:
                    field.hide()
                parts.append((field, ask.part))
            self._form.add_row(*parts)
        if spec.line and spec.scan:
            self._form.on_enter(made[spec.scan], self._entered)
        for name, choices in self._offers.items():
            self._offer(spec, name, choices)
        if self._unit is not None:
            self._say_unit(spec, self._unit)
        self.came.emit()

    def _listen(self, field: FormField, ask: Ask) -> None:
        if isinstance(field, ChoiceButtons):
            field.chosen.connect(lambda _key: self.edited.emit(""))
            return
        field.edited.connect(lambda _text, key=ask.key: self.edited.emit(key))
        field.editor.editingFinished.connect(lambda: self.edited.emit(""))

    def _made_specs(self) -> list[FormSpec]:
        return [self._asking.specs[kind] for kind in self._made]

    def offer(self, name: str, choices: Sequence[Choice]) -> None:
        """Give every field that chooses from a list of the station these choices."""
        self._offers[name] = choices
        for spec in self._made_specs():
            self._offer(spec, name, choices)

    def _offer(self, spec: FormSpec, name: str, choices: Sequence[Choice]) -> None:
        for ask in spec.asks():
            field = self._made[spec.key][ask.key]
            if ask.offers == name and isinstance(field, ChoiceField):
                typed = text_of(field, ask)
                field.set_choices(choices)
                show_text(field, ask, typed)

    def set_unit(self, unit: MassUnit) -> None:
        """The house's unit and day, which are known only since the first answer."""
        self._unit = unit
        for spec in self._made_specs():
            self._say_unit(spec, unit)

    def _say_unit(self, spec: FormSpec, unit: MassUnit) -> None:
        for ask in spec.asks():
            field = self._made[spec.key][ask.key]
            if isinstance(field, MassField) and not ask.unit:
                field.set_unit(unit)
            elif isinstance(field, DateField):
                field.set_today(self._asking.reading().today)

    def show_asked(self) -> None:
        """Show the fields of the form in hand, and of them those asked now; hide all others."""
        asking = self._asking
        now, typed, reading = self[asking.kind], asking.now(), asking.reading()
        for fields in self._made.values():
            if fields is not now:
                for field in fields.values():
                    field.setVisible(False)
        for ask in asking.spec.asks():
            now[ask.key].setVisible(ask.shown is None or ask.shown(typed, reading))
