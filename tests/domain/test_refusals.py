"""Refusals: a full sentence, with its facts, that survives a crossing between threads."""

import pickle

import pytest

from honeyledger.domain import codes, gs1, moments, units
from honeyledger.domain.refusals import Refusal, Sentence

SHORT = Sentence("too-light", "{gross} is less than {tare}: weigh it again.")


def test_a_refusal_fills_its_sentence_and_keeps_the_facts() -> None:
    refusal = Refusal(SHORT, field="gross", offers=["D26-0611-Y"], gross="12.5 kg", tare="18 {kg}")
    assert str(refusal) == refusal.text == "12.5 kg is less than 18 {kg}: weigh it again."
    assert (refusal.key, refusal.field) == ("too-light", "gross")
    assert refusal.offers == ("D26-0611-Y",)
    assert refusal.facts == {"gross": "12.5 kg", "tare": "18 {kg}"}


def test_a_sentence_without_its_facts_is_our_bug() -> None:
    with pytest.raises(KeyError, match="tare"):
        Refusal(SHORT, gross="12.5 kg")


def test_a_refusal_crosses_to_another_process_whole() -> None:
    sent = Refusal(SHORT, field="gross", offers=("D26-0611-Y",), gross="12.5 kg", tare="18 kg")
    got = pickle.loads(pickle.dumps(sent))
    assert isinstance(got, Refusal)
    parts = ("sentence", "key", "field", "offers", "facts", "text", "args")
    assert [getattr(got, part) for part in parts] == [getattr(sent, part) for part in parts]


def test_every_sentence_has_its_own_key_and_says_what_to_do() -> None:
    sentences = [
        value
        for module in (codes, gs1, moments, units)
        for value in vars(module).values()
        if isinstance(value, Sentence)
    ]
    assert len(sentences) > 20
    assert len({sentence.key for sentence in sentences}) == len(sentences)
    for sentence in sentences:
        assert sentence.key == sentence.key.lower().strip("-")
        assert " " not in sentence.key
        assert sentence.text.endswith(".")
        said = sentence.text.lower()
        assert any(verb in said for verb in ("type", "scan", "choose", "enter", "shorten"))
