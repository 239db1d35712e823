"""The field of one thing that is asked, and what is read from it and shown in it."""

from datetime import date

from honeyledger.desktop.models.asked import SEPARATOR, Ask, Typing
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, DateField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField
from honeyledger.desktop.widgets.form import FormField


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
            return ChoiceButtons(ask.label, choices, density=density)
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
