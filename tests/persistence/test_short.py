import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from honeyledger.domain.codes import LETTERS, make_code
from honeyledger.persistence.short import (
    SIGNS,
    class_lies_between,
    lie_between,
    short,
    short_name,
    written,
    written_name,
)

CODES = st.builds(
    make_code,
    st.sampled_from(sorted(LETTERS)),
    st.integers(0, 99),
    st.integers(0, 99_999) | st.integers(0, 99_999_999),
    st.sampled_from(["", "KB", "XYZ"]),
)
"""With None for numbers that are never given."""
CODE_WORDS = CODES.filter(lambda code: code is not None).map(str)
CLASSES = st.sampled_from([*SIGNS, *SIGNS.values(), "box", "", "=", "=v", "told"])
KEYS = CODE_WORDS | CODE_WORDS.map(short) | st.text(max_size=12)
WORDS = KEYS | CLASSES | st.builds("{}/{}".format, CLASSES, KEYS)
"""Codes and what looks like them, with classes and without, as written and as stored."""

FORMS = {
    "drum/D28-0691-4": "dD28691",
    "D28-0691-4": "D28691",
    "run/KB-R29-12345-0": "rKBR2912345",
    "note/N30-0001-7": "nN301",
    "yard/Y27-0101-M": "yY27101",
    "customer/customer-050": "c/customer-050",
    "pallet/G26-0001-P": "p/G26-0001-P",  # misread: its check character does not fit
    "hold/17": "h/17",
    "pallet": "p",
    "jars": "jars",
    "box/medium": "box/medium",
    "house": "house",
    "d": "=d",
    "d/D28-0691-4": "=d/D28-0691-4",
    "dD28691": "=dD28691",
    "D28691": "=D28691",
    "=": "==",
    "=x": "==x",
    "D280691": "D280691",  # no number is stored with zeros before it
    "": "",
}
NAMES = {
    "note/N30-0001-7": "n/N301",
    "loaded/vessel/E27-0001-Z": "l/vE271",
    "not from/yard/Y27-0101-M": "x/yY27101",
    "told/customer-1/17": "told/customer-1/17",
    "told/N30-0001-7": "told/N301",
    "n/1": "=n/1",
    "=n/1": "==n/1",
    "note": "note",
    "n": "n",
    "moisture": "moisture",
    "N30-0001-7": "N30-0001-7",
    "/": "/",
}


@pytest.mark.parametrize("word", FORMS)
def test_words_as_stored(word: str) -> None:
    assert short(word) == FORMS[word]
    assert written(short(word)) == word


@pytest.mark.parametrize("name", NAMES)
def test_names_of_marks_as_stored(name: str) -> None:
    assert short_name(name) == NAMES[name]
    assert written_name(short_name(name)) == name


@given(WORDS)
def test_every_word_is_read_back(word: str) -> None:
    assert written(short(word)) == word


@given(WORDS, WORDS)
def test_no_two_words_have_one_short_form(word: str, other: str) -> None:
    assert (short(word) == short(other)) == (word == other)
    assert (short_name(word) == short_name(other)) == (word == other)


@given(CODE_WORDS, st.sampled_from([*SIGNS, ""]))
def test_a_code_loses_its_dashes_and_its_check_character(code: str, name: str) -> None:
    word = f"{name}/{code}" if name else code
    assert len(short(word)) <= len(word) - 3 - max(0, len(name) - 1) - bool(name)


@given(WORDS)
def test_every_name_is_read_back_and_stays_one_of_many_on_its_subject(name: str) -> None:
    stored = short_name(name)
    assert written_name(stored) == name
    assert ("/" in stored) == ("/" in name)


@given(WORDS, st.data())
def test_what_begins_alike_lies_between(word: str, data: st.DataObject) -> None:
    assume("\U0010ffff" not in word)
    beginning = word[: data.draw(st.integers(0, len(word)))]
    assume(not ("\ud7ff" <= beginning[-1:] <= "\udfff"))
    assert any(first <= short(word) < after for first, after in lie_between(beginning))


@given(st.sampled_from([*SIGNS, "box", "jars"]), KEYS)
def test_a_class_lies_between(name: str, key: str) -> None:
    first, after = class_lies_between(name)
    assert first <= short(name) < after
    assert first <= short(f"{name}/{key}") < after


def test_runs_of_a_season_are_found_by_their_beginning() -> None:
    assert lie_between("run/R29-") == (("rR29", "rR2:"), ("r/R29-", "r/R29."))
    assert lie_between("run/KB-R29-") == (("rKBR29", "rKBR2:"), ("r/KB-R29-", "r/KB-R29."))
    assert lie_between("run/") == (("r", "r["),)
    assert lie_between("run/R29-00") == (("rR29", "rR2:"), ("r/R29-00", "r/R29-01"))
    assert lie_between("box/") == (("box/", "box0"),)
    assert lie_between("r/") == (("=r/", "=r0"),)
    assert lie_between("ru") == (("", "\U0010ffff"),)


def test_no_sign_stands_for_two_classes() -> None:
    assert len(set(SIGNS.values())) == len(SIGNS)
    assert all(len(sign) == 1 and sign.islower() for sign in SIGNS.values())
