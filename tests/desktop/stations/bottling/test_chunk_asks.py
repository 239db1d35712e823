"""Jars with comb in liquid honey: the facts the form says."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.bottling.chunk_asks import chunk_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.by_products import Chunk

READING = Reading("kg", date(2026, 7, 24))
TYPED = {"comb": "K26-0001-7", "pieces": "48", "source": "Tank 1", "product": "chunk-450"}


def test_the_form_says_its_facts() -> None:
    facts = chunk_form().facts(FormTyped({**TYPED, "jars": "48"}), READING)
    assert facts == [Chunk("chunk-450", "K26-0001-7", 48, "Tank 1", 48)]
    weighed = {**TYPED, "jars": "48", "liquid_g": "9,5", "despite_hold": "released by telephone"}
    assert chunk_form().facts(FormTyped(weighed), READING) == [
        Chunk("chunk-450", "K26-0001-7", 48, "Tank 1", 48, 9_500, "released by telephone")
    ]


def test_what_is_no_count_names_its_field() -> None:
    with pytest.raises(Refusal) as refused:
        chunk_form().facts(FormTyped({**TYPED, "jars": "many"}), READING)
    assert refused.value.field == "jars"


def test_why_held_comb_goes_on_is_asked_once_it_is_named() -> None:
    held = next(ask for ask in chunk_form().asks() if ask.key == "despite_hold")
    assert held.shown is not None
    assert not held.shown(FormTyped(), READING)
    assert held.shown(FormTyped(TYPED), READING)
