"""A phrase is its English text to everybody, and knows its template."""

import json
import pickle

from honeyledger.domain.phrases import Phrase, joined, phrase


def test_a_phrase_is_its_text_and_knows_what_it_was_made_of() -> None:
    made = phrase("{n} on its sheet", n=22)
    assert made == "22 on its sheet"
    assert {made: 1}["22 on its sheet"] == 1
    assert json.dumps(made) == '"22 on its sheet"'
    assert (made.template, made.facts) == ("{n} on its sheet", {"n": 22})


def test_braces_that_people_typed_are_left_alone() -> None:
    assert phrase("not from {place}", place="{north}") == "not from {north}"
    assert joined(("{a}", "b")) == "{a}, b"


def test_parts_that_are_joined_keep_their_own_words() -> None:
    inner = phrase("not read")
    made = joined((inner, "Mill Lane"), "; ")
    assert made == "not read; Mill Lane"
    assert made.facts["part0"] is inner
    assert joined(()) == ""


def test_a_phrase_goes_to_another_thread_or_process_whole() -> None:
    there = pickle.loads(pickle.dumps(joined((phrase("in {room}", room="Store"), "x"))))
    assert there == "in Store, x"
    assert isinstance(there, Phrase)
    assert there.facts["part0"].template == "in {room}"
