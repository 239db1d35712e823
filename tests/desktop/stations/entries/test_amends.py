"""Each way the books can have been wrong says one fact of an amendment."""

from dataclasses import fields
from datetime import date

import pytest

from honeyledger.desktop.stations.entries.amends import (
    FIELD_OF,
    AmendTyped,
    Answer,
    amend_kinds,
    amend_of,
    happened_of,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.corrections import Amend
from tests.support.houses import START_MS

TODAY = date(2026, 7, 24)
CODE = "D26-0001-X"


def test_every_way_is_a_fact_that_the_ledger_knows() -> None:
    facts = {field.name for field in fields(Amend)}
    kinds = amend_kinds()
    assert {kind.key for kind in kinds} == facts - {"lot", "reason", "vessel"}
    assert facts - {"lot", "reason"} <= set(FIELD_OF)
    for kind in kinds:
        assert kind.title
        assert bool(kind.register) == (kind.answer is Answer.CHOICE)


@pytest.mark.parametrize("what", ["yard", "supplier", "pallet", "run", "source", "product"])
def test_what_is_right_is_said_as_its_own_fact(what: str) -> None:
    facts = amend_of(AmendTyped(what, f" {CODE} ", " right ", reason=" misread "), TODAY)
    assert facts == Amend(lot=CODE, reason="misread", **{what: "right"})  # type: ignore[arg-type]


def test_a_load_and_a_run_go_by_an_entry_and_a_day_by_the_calendar() -> None:
    load = amend_of(AmendTyped("load", "12", "E26-0001-X", reason="wrong tank"), TODAY)
    assert load == Amend(reason="wrong tank", load=12, vessel="E26-0001-X")
    in_run = amend_of(AmendTyped("entry", "14", "R26-0001-X", reason="no run said"), TODAY)
    assert in_run == Amend(reason="no run said", entry=14, run="R26-0001-X")
    day = amend_of(AmendTyped("filled_on", CODE, "yesterday", reason="typed late"), TODAY)
    assert day == Amend(lot=CODE, reason="typed late", filled_on="2026-07-23")


@pytest.mark.parametrize(
    ("what", "about", "right", "field"),
    [
        ("load", "many", "E26-0001-X", "about"),
        ("entry", "many", "R26-0001-X", "about"),
        ("filled_on", CODE, "some day", "right"),
    ],
)
def test_what_cannot_be_read_is_refused_in_its_field(
    what: str, about: str, right: str, field: str
) -> None:
    with pytest.raises(Refusal) as refused:
        amend_of(AmendTyped(what, about, right), TODAY)
    assert FIELD_OF[refused.value.field] == field


def test_when_it_happened_is_read_by_the_houses_clock() -> None:
    assert happened_of(AmendTyped(happened=" "), "UTC", START_MS) is None
    moment = happened_of(AmendTyped(happened="06:15"), "UTC", START_MS)
    assert moment is not None
    assert moment.at_ms < START_MS
    with pytest.raises(Refusal):
        happened_of(AmendTyped(happened="sometime"), "UTC", START_MS)
