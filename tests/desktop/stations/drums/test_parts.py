"""What the forms of the drum room have in common."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, LineTyped, Reading, Typing
from honeyledger.desktop.stations.drums.parts import (
    DRUMS,
    at_line,
    drum_ask,
    grams_of,
    page_of,
)
from honeyledger.domain.refusals import Refusal
from tests.desktop.stations.drums.pages import PAGE


def test_a_drum_is_asked_for_as_one_of_those_on_hand() -> None:
    ask = drum_ask("Drums", "lots", many=True)
    assert (ask.key, ask.typing, ask.offers, ask.many) == ("lots", Typing.FREE, DRUMS, True)


def test_masses_pages_and_fields() -> None:
    assert grams_of(FormTyped({"net": "1,5"}), "net", "kg", "net_g") == 1_500
    assert grams_of(FormTyped(), "net", "kg", "net_g") is None
    with pytest.raises(Refusal) as refused:
        grams_of(FormTyped({"net": "full"}), "net", "kg", "net_g")
    assert refused.value.field == "net_g"
    assert at_line("moisture", LineTyped("D26-0001-C")) == "moisture@D26-0001-C"
    assert page_of(Reading("kg", date(2026, 7, 24), PAGE)) is PAGE
