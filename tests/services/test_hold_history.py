"""A lot's card tells of the holds that were put on it, ended, and what it was cleared of."""

from collections.abc import Collection

from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.services.cards import lot_card
from honeyledger.services.hold_history import holds_told
from tests.support.houses import BuiltHouse

SIGNER = "O26-0001-X"


def _house() -> tuple[BuiltHouse, str, str]:
    """A pull and a drum made of it."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    pull = house.load("Creek", 300_000, "Tank")
    return house, pull, house.drum("Tank", 100_000)


def _told(house: BuiltHouse, code: str, known: Collection[int] = ()) -> list[str]:
    told = house.house.ask(lambda view: holds_told(view, find_lot(view, code), known))
    return [one.sentence for one in told]


def test_a_hold_and_its_end_are_in_the_history() -> None:
    house, pull, drum = _house()
    hold = house.do(PutOnHold(pull, "smells of smoke.")).entries[0].id
    assert _told(house, pull) == ["Put on hold: smells of smoke."]
    assert _told(house, drum) == []
    end = house.do(Release(pull, "tasted by two"), operator=SIGNER).entries[0].id
    assert _told(house, pull) == [
        "Put on hold: smells of smoke.",
        "Hold ended: tasted by two.",
    ]
    history = house.house.ask(lambda view: lot_card(view, pull)).history
    assert [one.entry for one in history][-2:] == [hold, end]
    assert history[-1].by == SIGNER


def test_a_lot_that_was_cleared_says_of_what_and_why() -> None:
    house, pull, drum = _house()
    house.do(PutOnHold(pull, "smells of smoke"))
    house.do(Clear(drum, pull, "none found", "laboratory 12"), operator=SIGNER)
    assert _told(house, drum) == [f"Cleared of the hold on {pull}: none found; laboratory 12."]
    house, pull, drum = _house()
    house.do(PutOnHold("Creek", "treated", first_day="2026-07-01"))
    house.do(Clear(drum, "Creek", "none found"), operator=SIGNER)
    assert _told(house, drum) == ["Cleared of the hold on Creek: none found."]


def test_a_hold_made_with_its_lot_is_told_once() -> None:
    house, pull, _ = _house()
    entry = house.do(PutOnHold(pull, "smells of smoke")).entries[0].id
    assert _told(house, pull, {entry}) == []
