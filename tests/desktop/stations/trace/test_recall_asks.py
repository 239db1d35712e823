"""The forms of a call back say the facts they are filled with, or what is missing."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.models.wrongs import wrongs
from honeyledger.desktop.stations.trace.recall_asks import (
    ANSWER,
    COMPLAINT,
    HOLD,
    recall_forms,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.recall_page import RecallPage, recall_page
from tests.support.houses import BuiltHouse

SPECS = {spec.key: spec for spec in recall_forms()}


def _reading(page: RecallPage | None = None) -> Reading:
    return Reading("kg", date(2026, 9, 25), page)


def _page(text: str = "") -> tuple[BuiltHouse, str, RecallPage]:
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    built.load(built.yard("Long Field"), 100_000, tank)
    drum = built.drum(tank, 100_000)
    built.do(Complain(drum, "sour", "Ms Orla", "2026-07-20"))
    asked = text or drum
    return built, drum, built.house.ask(lambda view: recall_page(view, built.now_ms, asked))


def test_a_hold_is_on_the_lot_that_is_shown_and_says_how_much_it_is() -> None:
    _, drum, page = _page()
    typed = FormTyped({"code": drum, "reason": "glass"})
    assert SPECS[HOLD].facts(typed, _reading(page)) == [PutOnHold(drum, "glass")]
    done = SPECS[HOLD].done(typed, None, _reading(page))  # type: ignore[arg-type]
    assert done == f"{drum} is on hold, and all that came of it: 1 lot, 100.0 kg here."
    elsewhere = SPECS[HOLD].done(typed, None, _reading())  # type: ignore[arg-type]
    assert elsewhere == f"{drum} is on hold, and all that came of it."
    assert all(wrongs())


def test_a_complaint_says_when_who_and_what() -> None:
    typed = FormTyped(
        {"code": "J26-0004-00382-F", "what": "glass", "who": "Ms Orla", "day": "20 Sep 2026"}
    )
    assert SPECS[COMPLAINT].facts(typed, _reading()) == [
        Complain("J26-0004-00382-F", "glass", "Ms Orla", "2026-09-20")
    ]


def test_an_answer_keeps_what_was_said() -> None:
    _, drum, page = _page()
    number = page.complaints[0].row.number
    typed = FormTyped({"number": str(number), "answer": "taken back"})
    assert SPECS[ANSWER].facts(typed, _reading(page)) == [
        Complain(drum, "sour", "Ms Orla", "2026-07-20", "taken back", number)
    ]
    done = SPECS[ANSWER].done(typed, None, _reading(page))  # type: ignore[arg-type]
    assert done == f"Complaint {number} is answered."


def test_an_answer_needs_its_complaint_and_words() -> None:
    _, _, page = _page()
    with pytest.raises(Refusal) as none:
        SPECS[ANSWER].facts(FormTyped({"answer": "taken back"}), _reading(page))
    assert none.value.text == (
        "Choose the complaint that is answered, by the number of the entry that took it in."
    )
    number = str(page.complaints[0].row.number)
    with pytest.raises(Refusal) as silent:
        SPECS[ANSWER].facts(FormTyped({"number": number}), _reading(page))
    assert silent.value.text == "Say what they were answered, or what was found."
    assert silent.value.field == "answer"
