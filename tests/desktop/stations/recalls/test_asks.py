"""The forms as data: what each says, and what is asked only sometimes."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.recalls.asks import (
    ANSWER,
    CLOSE,
    OPEN,
    TOLD,
    is_drill,
    recall_forms,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.services.drills import DrillDue
from honeyledger.services.recall_starts import TheirLot
from honeyledger.services.recalls_page import RecallsPage

READING = Reading("kg", date(2026, 7, 24))
FORMS = {spec.key: spec for spec in recall_forms()}


def said(kind: str, **values: str) -> Any:
    (facts,) = FORMS[kind].facts(FormTyped(values), READING)
    return facts


def test_what_each_form_says() -> None:
    assert said(OPEN, about="smoke", lots="D1, D2", first_day="1 Jul") == OpenRecall(
        "smoke", ("D1", "D2")
    )
    assert said(OPEN, about="smoke", yard="Y", first_day="1 Jul", sort="drill") == OpenRecall(
        "smoke", (), "Y", "2026-07-01", sort="drill"
    )
    assert said(TOLD, recall="Q", customers="k", whom="Mr Lund") == TellConsignees(
        "Q", ("k",), "phone", "Mr Lund"
    )
    assert said(ANSWER, recall="Q", customer="k", here_g="1.5", destroyed_jars="3") == (
        AnswerRecall("Q", "k", 1_500, None, 0, 3)
    )
    assert said(CLOSE, recall="Q", result="done", despite="gone") == CloseRecall(
        "Q", "done", "", "gone"
    )


def test_a_supplier_s_lot_is_all_that_came_in_under_it() -> None:
    page = RecallsPage(
        *("ledger", "kg", "UTC", date(2026, 7, 24), (), None, (), ()),
        DrillDue(None, False),
        (TheirLot("G-417", ("A1", "A2")), TheirLot("G-418", ("A3",))),
    )
    ask = next(one for one in FORMS[OPEN].asks() if one.key == "their_lot")
    assert ask.shown is not None
    assert ask.shown(FormTyped(), READING)
    assert not ask.shown(FormTyped({"lots": "D1"}), READING)
    typed = FormTyped({"about": "glass", "lots": "D1, A2", "their_lot": "G-417"})
    (facts,) = FORMS[OPEN].facts(typed, Reading("kg", date(2026, 7, 24), page))
    assert facts == OpenRecall("glass", ("D1", "A2", "A1"))


def test_days_are_asked_of_a_yard_only() -> None:
    days = next(ask for ask in FORMS[OPEN].asks() if ask.key == "first_day")
    assert days.shown is not None
    assert not days.shown(FormTyped({"lots": "D1"}), READING)
    assert days.shown(FormTyped({"yard": "Y"}), READING)


def test_a_drill_is_known() -> None:
    assert is_drill(FormTyped({"sort": "drill"}))
    assert not is_drill(FormTyped({"sort": "recall"}))


def test_a_case_and_a_customer_have_to_be_chosen() -> None:
    for kind, values, sentence in (
        (TOLD, {"customers": "k"}, "Choose the case that is meant, or open one first."),
        (ANSWER, {"recall": "Q"}, "Choose the customer from the list."),
    ):
        with pytest.raises(Refusal) as refused:
            said(kind, **values)
        assert str(refused.value) == sentence
