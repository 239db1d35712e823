"""The field by which each thing is asked, what is read from it, and what it shows."""

from datetime import date

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import Ask, Typing
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asked_fields import made_field, refuse_field, show_text, text_of
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, DateField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField

TODAY = date(2026, 7, 24)


@pytest.mark.parametrize(
    ("typing", "kind"),
    [
        (Typing.TEXT, TextField),
        (Typing.CHOICE, ChoiceField),
        (Typing.FREE, ChoiceField),
        (Typing.COUNT, CountField),
        (Typing.MASS, MassField),
        (Typing.DAY, DateField),
        (Typing.BUTTONS, ChoiceButtons),
    ],
)
def test_each_is_asked_by_its_field(qtbot: QtBot, typing: Typing, kind: type) -> None:
    ask = Ask("what", "What", typing, buttons=(("a", "one"), ("b", "other")))
    field = made_field(ask, Density.DESK, TODAY)
    qtbot.addWidget(field)
    assert type(field) is kind
    text = {Typing.BUTTONS: "b", Typing.DAY: "23 Jul 2026"}.get(typing, "12")
    show_text(field, ask, text)
    assert text_of(field, ask) == text
    refuse_field(field, True)
    if isinstance(field, Field):
        assert field.box.refused


def test_a_choice_is_its_key_and_several_codes_are_text(qtbot: QtBot) -> None:
    one, several = Ask("a", "One", Typing.CHOICE), Ask("b", "Some", Typing.FREE, many=True)
    for ask in (one, several):
        field = made_field(ask, Density.DESK, TODAY)
        assert isinstance(field, ChoiceField)
        qtbot.addWidget(field)
        field.set_choices([Choice("D26-0001-C", "D26-0001-C Drum 7", "300 kg")])
        field.set_key("D26-0001-C")
        assert text_of(field, ask) == "D26-0001-C"
        show_text(field, ask, "D26-0001-C")
        assert field.text() == "D26-0001-C Drum 7", "what is there already stays as it is"
    show_text(field, several, "D26-0001-C, D26-0002-A")
    assert text_of(field, several) == "D26-0001-C, D26-0002-A"
