"""Every verb has its facts class, its kind and its function."""

import importlib
from dataclasses import is_dataclass
from typing import get_type_hints

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.entry import Act
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.table import VERBS, book, verb_of
from tests.support.houses import START_MS, BuiltHouse

# The verbs of this part of the ledger, as its law names them.
ONE_WORD = (
    "register receive split join count load fill bung reweigh skim purchase cappings wash "
    "calibrate "
    "change-over bottle dispatch sample discard measure hold clear release narrow amend reverse "
    "approve empties dry melt cut chunk blend warm supply "
    "label complaint pack unpack pool settle treat feed disease certify check "
    "move stocktake stop printed weather"
)
TWO_WORDS = (
    "open run",
    "room log",
    "set aside",
    "wet out",
    "close run",
    "take back",
    "buyer's weight",
    "transfer title",
    "send back",
    "opening stock",
    "found drum",
    "supers on",
    "judge claims",
    "close recall",
    "recall answer",
    "recall notice",
    "open recall",
)


def test_every_verb_is_there_once() -> None:
    assert sorted(VERBS) == sorted([*ONE_WORD.split(), *TWO_WORDS])


def test_each_kind_is_booked_by_the_function_for_its_facts() -> None:
    for kind in VERBS:
        verb = verb_of(kind)
        assert verb is not None
        facts_class = get_type_hints(verb)["facts"]
        assert facts_class.kind == kind


def test_every_facts_class_is_in_the_table() -> None:
    written = {
        value.kind
        for module in set(VERBS.values())
        for value in vars(importlib.import_module(f"honeyledger.ledger.verbs.{module}")).values()
        if is_dataclass(value) and isinstance(getattr(value, "kind", None), str)
    }
    assert written == set(VERBS)


def test_facts_make_an_entry_and_the_state_is_only_read() -> None:
    house = BuiltHouse()
    act = Act(moment_at(START_MS, "UTC"), "O26-0001-X", "desk", "command-9", run="")
    entry = house.house.ask(
        lambda view: book(Register("yard", {"name": "Creek"}), view, act, START_MS + 5, part=2)
    )
    assert (entry.id, entry.kind, entry.part, entry.recorded_ms) == (
        3,
        "register",
        2,
        START_MS + 5,
    )
    assert entry.act == act
    assert house.house.ask(lambda view: view.head().entry) == 2


def test_what_is_no_verb_is_our_own_fault() -> None:
    house = BuiltHouse()
    act = Act(moment_at(START_MS, "UTC"), "", "", "command-9")
    with pytest.raises(BrokenRule, match="no verb books dict"):
        house.house.ask(lambda view: book({}, view, act, START_MS))
