"""Held means held is judged by what was held when something went out, not by what is held now."""

from honeyledger.ledger.entry import Entry
from honeyledger.ledger.holds_then import HoldsThen, broken_holds, gist_of
from honeyledger.ledger.verbs.amending import Amend
from honeyledger.ledger.verbs.corrections import Narrow, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse


def _house() -> tuple[BuiltHouse, str, str]:
    """A house with one pull in one drum: the house, the pull's code, the drum's."""
    house = BuiltHouse()
    for name in ("Creek", "Hill"):
        house.yard(name)
    house.do(Register("customer", {"name": "Packer"}))
    pull = house.load("Creek", 300_000, house.vessel("Tank 1"))
    return house, pull, house.drum("Tank 1", 100_000)


def _entries(house: BuiltHouse) -> list[Entry]:
    return list(house.house.ask(lambda view: view.entries()))


def _broken(house: BuiltHouse, entries: list[Entry]) -> list[str]:
    then = HoldsThen()
    for entry in entries:
        then.follow(gist_of(entry))
    return house.house.ask(lambda view: broken_holds(view, then.dispatched.values()))


def _holds(house: BuiltHouse) -> bool:
    found = {finding.name: finding for finding in house.store.audit()}
    return found["held-means-held"].holds


def test_what_went_out_before_a_hold_was_free_and_after_it_is_named() -> None:
    house, _, drum = _house()
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    house.do(PutOnHold(drum, "smoke"))
    *before, sent, hold = _entries(house)
    assert _broken(house, [*before, sent, hold]) == []
    lot = sent.postings[0].lot
    assert _broken(house, [*before, hold, sent]) == [
        f"entry {sent.id}: lot {lot} went out under hold/{hold.id}"
    ]
    # Released since: it had gone out under the hold all the same.
    house.do(Release(drum, "clean"))
    release = _entries(house)[-1]
    assert _broken(house, [*before, hold, sent, release])
    assert _holds(house)


def test_a_release_taken_back_later_does_not_reach_back() -> None:
    house, _, drum = _house()
    house.do(PutOnHold(drum, "smoke"))
    release = house.do(Release(drum, "clean")).entries[0].id
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    house.do(Reverse(release, "wrong drum"))
    assert _holds(house)


def test_a_clear_taken_back_later_does_not_reach_back() -> None:
    house, pull, drum = _house()
    house.do(PutOnHold(pull, "smoke"))
    clear = house.do(Clear(drum, pull, "clean")).entries[0].id
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    house.do(Reverse(clear, "wrong drum"))
    assert _holds(house)


def test_an_amendment_taken_back_later_does_not_reach_back() -> None:
    house, pull, drum = _house()
    house.do(PutOnHold("Creek", "treated", first_day="2026-07-01"))
    house.do(Amend(pull, "misread", yard="Hill"))
    house.do(Narrow(pull, "tag photographed", place="Creek"))
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    house.do(Amend(pull, "it was right", yard="Creek"))
    assert _holds(house)


def test_a_yard_that_a_pull_was_amended_to_in_error_does_not_hold_it() -> None:
    """The amendment was reversed before the hold; one that stands holds the pull."""
    house, pull, drum = _house()
    wrong = house.do(Amend(pull, "misread", yard="Hill")).entries[0].id
    house.do(Reverse(wrong, "it was right"))
    house.do(PutOnHold("Hill", "smoke"))
    house.do(Dispatch("Packer", (DispatchLine(drum, net_g=10_000),)))
    assert _holds(house)
    *before, sent = _entries(house)
    amended = house.do(Amend(pull, "misread after all", yard="Hill")).entries[0]
    assert _broken(house, [*before, amended, sent])


def test_a_yard_that_a_pull_was_amended_from_holds_it_until_it_is_narrowed() -> None:
    house, pull, drum = _house()
    amended = house.do(Amend(pull, "misread", yard="Hill")).entries[0]
    house.do(Narrow(pull, "the sheet was found", place="Creek"))
    house.do(PutOnHold("Creek", "smoke"))
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    assert _holds(house)
    entries = _entries(house)
    narrow = entries.index(amended) + 1
    assert _broken(house, entries[:narrow] + entries[narrow + 1 :])
