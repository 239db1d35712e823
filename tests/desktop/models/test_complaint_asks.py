"""A complaint is asked for in one way, wherever it is taken in."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.models.complaint_asks import COMPLAINT, complaint_form
from honeyledger.desktop.stations.dispatch.trade_asks import trade_forms
from honeyledger.desktop.stations.trace.recall_asks import recall_forms
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.jars import Complain

READING = Reading("kg", date(2026, 9, 25))
JAR = "J26-0004-00382-F"


def _facts(**values: str) -> Complain:
    (facts,) = complaint_form().facts(FormTyped({"code": JAR, "what": "glass", **values}), READING)
    assert isinstance(facts, Complain)
    return facts


def test_who_says_what_when_and_what_they_were_told() -> None:
    assert _facts() == Complain(JAR, "glass", "")
    assert _facts(who="Ms Orla", day="20 Sep 2026", answer="looked into") == Complain(
        JAR, "glass", "Ms Orla", "2026-09-20", "looked into"
    )
    with pytest.raises(Refusal) as refused:
        _facts(day="yesteryear")
    assert refused.value.field == "day"


def test_dispatch_and_trace_ask_for_it_alike() -> None:
    forms = [
        next(spec for spec in specs if spec.key == COMPLAINT)
        for specs in (trade_forms(), recall_forms())
    ]
    asked = [[(ask.key, ask.label) for ask in spec.asks()] for spec in forms]
    assert asked[0] == asked[1]
    assert [spec.button for spec in forms] == ["Keep the complaint"] * 2
