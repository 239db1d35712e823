"""Nobody closes a run, clears, releases, narrows or throws away in silence."""

import pytest

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Act
from honeyledger.ledger.signing import check_reason, check_signer
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse


@pytest.mark.parametrize("text", ["", "  ", "\n"])
def test_a_blank_is_no_reason(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_reason(text, "result")
    assert (refused.value.text, refused.value.field) == (
        "Give the reason in a word or two.",
        "result",
    )


def test_a_reason_is_a_reason() -> None:
    check_reason("torn")


def _signed(operator: str) -> None:
    act = Act(Moment(0, 0, "UTC"), operator, "", "command-1")
    BuiltHouse().house.ask(lambda view: check_signer(Booking(view, act, 0, 0)))


def test_a_named_person_signs() -> None:
    _signed("O26-0001-X")
    with pytest.raises(Refusal) as refused:
        _signed("")
    assert (refused.value.text, refused.value.field) == (
        "Say who signs: scan a badge, or name a person who works here.",
        "operator",
    )


def test_an_amendment_and_a_hold_without_a_name_are_reminded_of_it() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    pull, _ = house.pull("Creek", 148_000)
    assert house.do(PutOnHold(pull, "smoke"), operator="").notes == ()
    house.do(Register("operator", {"name": "Ann Reed"}))
    said = (
        "Nobody's name is on this entry, so nobody can be asked about it later: name the operator."
    )
    assert said in house.do(PutOnHold(pull, "smoke"), operator="").notes
    assert said in house.do(Amend(pull, "misread", yard="Hill"), operator="").notes
    assert said not in house.do(Amend(pull, "and back", yard="Creek")).notes
