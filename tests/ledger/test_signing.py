"""Nobody closes a run, clears, releases, narrows or throws away in silence."""

import pytest

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Act
from honeyledger.ledger.signing import check_reason, check_signer, two_free
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View
from tests.support.books import turned_down
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


def test_where_the_house_says_so_two_people_free_what_is_on_hold() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    first = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    house.do(Register("operator", {"name": "Bo Lind"}))
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    house.do(PutOnHold(pull, "smoke"))
    house.do(Register("house", {"name": "The house", "two_free": 1}))
    assert house.house.ask(two_free)
    alone = "In this house two people free what is on hold: name the second one, who agrees."
    assert turned_down(house, Release(pull, "clean")) == alone
    assert turned_down(house, Clear(drum, pull, "clean"), operator=first) == alone
    twice = "Ann Reed signs already: the second person has to be somebody else."
    for same in ("Ann Reed", first):
        assert turned_down(house, Release(pull, "clean", second=same), operator=first) == twice
    house.do(Clear(drum, pull, "clean", second="Bo Lind"), operator=first)
    done = house.do(Release(pull, "clean", second="Bo Lind"), operator=first)
    assert (
        house.house.ask(lambda view: view.mark(f"hold/{_hold_of(view)}", "released")) is not None
    )
    assert '"second"' in str(done.entries[0].facts).replace("'", '"')


def _hold_of(view: View) -> str:
    return next(mark.subject.partition("/")[2] for mark in view.marked("hold", "hold/"))
