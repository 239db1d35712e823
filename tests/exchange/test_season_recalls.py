"""Rows of the sample's recalls as the facts of verbs."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_recalls import COLUMNS, RECALLS
from honeyledger.exchange.season_steps import Names, Step
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)


def made(**cells: object) -> Step:
    names = Names()
    for name, code in (("drum 45", "D26-0045-P"), ("pail 1", "D26-0007-V"), ("recall 1", "Q1")):
        names.give(name, code)
    empty = dict.fromkeys((name.replace(" ", "_") for name in COLUMNS), "")
    row = Row(2, {**empty, "net_g": None, "destroyed_g": None, "case": "recall 1", **cells})
    return RECALLS["recalls"]((row,), names)


def test_a_case_is_opened_on_lots_by_their_names() -> None:
    step = made(
        what="opened", matter="rubber", lots="drum 45 + pail 1", sort="recall", found_out="a call"
    )
    assert step.facts == OpenRecall("rubber", ("D26-0045-P", "D26-0007-V"), found="a call")
    assert step.gives == (("recall 1", "Q"),)


def test_it_goes_on_and_ends() -> None:
    told = made(what="told", customer="Baker", how="phone", whom="goods in", note="letter sent")
    assert told.facts == TellConsignees("Q1", ("Baker",), "phone", "goods in", "letter sent")
    answered = made(
        what="answered", customer="Baker", net_g=0, destroyed_g=54_400, proof="photographs"
    )
    assert answered.facts == AnswerRecall(
        "Q1", "Baker", 0, destroyed_g=54_400, proof="photographs"
    )
    closed = made(what="closed", result="mended", disposal="burnt")
    assert closed.facts == CloseRecall("Q1", "mended", "burnt")
    with pytest.raises(Refusal) as caught:
        made(what="guessed")
    assert caught.value.key == "no-such-step"
