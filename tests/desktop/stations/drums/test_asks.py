"""The drum room's forms: the facts each says, and what is asked only at times."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, LineTyped, Reading
from honeyledger.desktop.stations.drums.asks import drum_forms
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release, Sample
from honeyledger.ledger.verbs.stocktake import Move
from tests.desktop.stations.drums.pages import PAGE

READING = Reading("kg", date(2026, 7, 24), PAGE)


def spec(kind: str) -> FormSpec:
    return next(one for one in drum_forms() if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts"),
    [
        (
            "weigh",
            {"drum": "D26-0001-C", "gross": "319,5", "tare": "18"},
            Reweigh("D26-0001-C", Weight(gross_g=319_500, tare_g=18_000)),
        ),
        (
            "sample",
            {"lots": "D26-0001-C, D26-0002-A", "net": "250", "kept": "shelf 2", "purpose": "ship"},
            Sample(("D26-0001-C", "D26-0002-A"), 250, "shelf 2", "ship"),
        ),
        (
            "move",
            {"codes": "D26-0001-C", "room": "Drum room", "row": "B3"},
            Move(("D26-0001-C",), "Drum room", "B3"),
        ),
        ("hold", {"target": "D26-0001-C", "reason": "wet"}, PutOnHold("D26-0001-C", "wet")),
        (
            "hold",
            {"target": "D26-0001-C", "reason": "other", "words": "leaks"},
            PutOnHold("D26-0001-C", "leaks"),
        ),
        ("free", {"hold": "9", "what": "whole", "reason": "clean"}, Release("9", "clean")),
        (
            "free",
            {"hold": "12", "what": "whole", "reason": "came", "certificate": "C 7"},
            Release("12", "came", "C 7"),
        ),
        (
            "free",
            {"hold": "9", "what": "one", "lot": "D26-0003-8", "result": "none", "reason": "lab"},
            Clear("D26-0003-8", "9", "none", "lab"),
        ),
    ],
)
def test_each_form_says_its_facts(kind: str, values: dict[str, str], facts: Any) -> None:
    assert spec(kind).facts(FormTyped(values), READING) == [facts]


def test_pots_that_were_read_are_readings_and_others_wait() -> None:
    lines = (
        LineTyped("D26-0001-C", {"moisture": "17,4", "colour": "31"}),
        LineTyped("D26-0002-A"),
        LineTyped("D26-0004-6", {"colour": "44"}),
    )
    assert spec("read").facts(FormTyped({}, lines), READING) == [
        Measure("D26-0001-C", 1_740, 310),
        Measure("D26-0004-6", None, 440),
    ]
    with pytest.raises(Refusal) as refused:
        spec("read").facts(FormTyped({}, lines[1:2]), READING)
    assert (refused.value.key, refused.value.field) == ("nothing-read", "moisture@D26-0002-A")
    with pytest.raises(Refusal) as refused:
        spec("read").facts(FormTyped(), READING)
    assert refused.value.field == "lot"


def _asked(kind: str, typed: FormTyped) -> list[str]:
    return [ask.key for ask in spec(kind).asks() if ask.shown is None or ask.shown(typed, READING)]


def test_some_things_are_asked_only_when_they_matter() -> None:
    assert "words" not in _asked("hold", FormTyped({"reason": "wet"}))
    assert "words" in _asked("hold", FormTyped({"reason": "other"}))
    assert _asked("free", FormTyped({"what": "one"})) == [
        "hold",
        "what",
        "lot",
        "result",
        "reason",
    ]
    assert "certificate" not in _asked("free", FormTyped({"hold": "9"}))
    assert "certificate" in _asked("free", FormTyped({"hold": "12"}))
    free, held = LineTyped("D26-0001-C"), LineTyped("D26-0003-8")
    assert "despite" not in _asked("blend", FormTyped({}, (free,)))
    assert "despite" in _asked("blend", FormTyped({}, (free, held)))
    before = Reading("kg", date(2026, 7, 24))
    for kind, key in (("free", "certificate"), ("blend", "despite")):
        ask = next(one for one in spec(kind).asks() if one.key == key)
        assert ask.shown is not None
        assert not ask.shown(FormTyped(), before), "before the page has come nothing is known"
