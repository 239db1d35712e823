"""Holds: set on a code or a yard with dates, cleared for one lot, released by name."""

import pytest

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, mark, place, refusal_of, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Two yards, two tanks, a customer, a product."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.container("17")
    house.do(Register("customer", {"name": "Packer"}))
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    return house


HELD = ("held", "held-by-way")


def _through(house: BuiltHouse, code: str) -> str:
    """The target of the hold that keeps a lot here; "" where it could be sent."""
    try:
        house.house.preview(Dispatch("Packer", (DispatchLine(code),)))
    except Refusal as refusal:
        return str(refusal.facts["target"]) if refusal.key in HELD else refusal.text
    return ""


def _number(house: BuiltHouse, target: str, reason: str = "smoke", **days: str) -> str:
    return str(house.do(PutOnHold(target, reason, **days)).entries[0].id)


def test_a_hold_moves_nothing_and_reaches_all_that_is_made_of_it(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    before = house.drum("Tank 1", 100_000)
    done = house.do(PutOnHold(pull, "smoke"))
    house.do(Fill("Tank 1", Weight(net_g=100_000), despite_hold="tank needed"))
    lot = code_in(house.do(ChangeOver(product="Clover", feed=before, despite_hold="ok")), "J")
    house.do(Bottle(lot, 100, despite_hold="ok"))
    assert done.entries[0].postings == ()
    assert mark(house, f"hold/{done.entries[0].id}", "hold") == {
        "target": pull,
        "lots": [1],
        "reason": "smoke",
        "by": "O26-0001-X",
    }
    assert {_through(house, code) for code in (before, lot)} == {pull}
    way = ", ".join((next(row.code for row in house.back(before).lots if row.kind == "T"), before))
    assert turned_down(house, Dispatch("Packer", (DispatchLine(lot),))) == (
        f"{lot} is on hold through {pull}, by way of {way}: smoke. Put it aside, or have it "
        "cleared by name."
    )


def test_held_honey_is_worked_on_when_a_named_person_says_why(house: BuiltHouse) -> None:
    """Loading, filling, pouring and bottling ask; throwing it away does not."""
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    pull, tag = house.pull("Creek", 100_000)
    for target in (pull, drum):
        house.do(PutOnHold(target, "smoke"))
    asked = "{0} is on hold through {0}: smoke. It can go on only if a named person says why."
    assert turned_down(house, Load(tag, "Tank 2")) == asked.format(pull)
    assert turned_down(house, Load(tag, "Tank 2", despite_hold=" ")) == asked.format(pull)
    assert turned_down(house, Load(tag, "Tank 2", despite_hold="x"), operator="") == (
        asked.format(pull)
    )
    assert turned_down(house, Fill(drum, whole=True, into="Tank 2")) == asked.format(drum)
    assert turned_down(house, ChangeOver(product="Clover", feed=drum)) == asked.format(drum)
    done = house.do(Load(tag, "Tank 2", despite_hold="no room on the dock"))
    assert done.notes == (f"{pull} went on although held through {pull}: no room on the dock.",)
    house.do(Discard(drum, "fermented"))


def test_a_hold_on_a_jar_is_on_its_lot(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 100))
    code = parse_code(lot)
    assert isinstance(code, Code)
    house.do(PutOnHold(str(make_jar_code(code, 7)), "glass found"))
    assert _through(house, lot) == lot


def test_a_hold_on_a_pallet_is_on_its_pulls_wherever_they_went(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 5), Line("Hill", 5))))
    tag = code_in(done, "G")
    house.do(PutOnHold(tag, "brood found"))
    house.do(Load(tag, "Tank 1", despite_hold="done already"))
    drum = house.do(Fill("Tank 1", Weight(net_g=100_000), despite_hold="done already")).codes[-1]
    assert _through(house, drum) == tag
    # The tag of a pallet that was loaded before anyone thought of it does as well.
    _, empty = house.pull("Creek", 100_000)
    house.do(Load(empty, "Tank 2"))
    other = house.drum("Tank 2", 90_000)
    house.do(PutOnHold(empty, "brood found"))
    assert _through(house, other) == empty


def test_a_hold_on_a_vessel_is_on_what_stands_in_it(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    free = house.drum("Tank 1", 100_000)
    house.load("Hill", 100_000, "Tank 1")
    house.do(PutOnHold("Tank 1", "glass found"))
    drum = house.do(Fill("Tank 1", Weight(net_g=90_000), despite_hold="x")).codes[-1]
    # The earlier drum is of the very fill that still stands in the tank as its heel.
    assert (_through(house, drum), _through(house, free)) == ("Tank 1", "Tank 1")
    house.do(Release("tank 1", "no glass"))
    assert _through(house, drum) == ""


def test_a_hold_on_a_yard_takes_its_pulls_of_those_days_also_later_ones(
    house: BuiltHouse,
) -> None:
    def drum(yard: str, day: str) -> str:
        house.wash("Tank 1")
        done = house.do(Receive((Line(yard, 10, pulled=day),)))
        house.do(Load(code_in(done, "G"), "Tank 1", despite_hold="asked"))
        facts = Fill("Tank 1", Weight(net_g=140_000), despite_hold="asked")
        return house.do(facts).codes[-1]

    before, inside = drum("Creek", "2026-07-09"), drum("Creek", "2026-07-10")
    other = drum("Hill", "2026-07-10")
    number = _number(house, "creek", "treated", first_day="2026-07-10", last_day="2026-07-12")
    later, after = drum("Creek", "2026-07-12"), drum("Creek", "2026-07-13")
    found = {code: _through(house, code) for code in (before, inside, other, later, after)}
    assert found == {before: "", inside: "Creek", other: "", later: "Creek", after: ""}
    assert mark(house, f"hold/{number}", "hold")["from"] == "2026-07-10"
    house.do(PutOnHold("Hill", "treated"))  # all days
    assert _through(house, other) == "Hill"


def test_yards_and_vessels_are_meant_by_their_codes_too(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    yard = house.back(pull).ancestors[0].code
    house.do(PutOnHold(yard.lower(), "treated"))
    assert _through(house, drum) == "Creek"
    house.do(Release(yard, "within limits"))
    house.do(PutOnHold(place(house, "Tank 1").partition("/")[2], "glass found"))
    assert _through(house, drum) == "Tank 1"


def test_a_pull_amended_to_a_held_yard_is_held(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    house.do(PutOnHold("Hill", "treated"))
    assert _through(house, drum) == ""
    house.do(Amend(pull, "sheet misread", yard="Hill"))
    assert _through(house, drum) == "Hill"


def test_clear_frees_one_lot_while_its_ancestor_stays_held(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    one, two = house.drum("Tank 1", 100_000), house.drum("Tank 1", 100_000)
    number = _number(house, pull)
    house.do(Clear(one, pull, "lab: clean", reason="report 17"))
    assert (_through(house, one), _through(house, two)) == ("", pull)
    cleared = mark(house, f"hold/{number}", "cleared/3")
    assert cleared == {
        "lots": [1, 2],
        "result": "lab: clean",
        "reason": "report 17",
        "by": "O26-0001-X",
    }
    # What is made of the cleared lot is free too, unless it is held by another way.
    house.pour(one, "Tank 2", 50_000)
    assert _through(house, house.drum("Tank 2", 40_000)) == ""
    house.do(Fill(two, Weight(net_g=10_000), into="Tank 2", despite_hold="x"))
    mixed = house.do(Fill("Tank 2", Weight(net_g=10_000), despite_hold="x")).codes[-1]
    assert _through(house, mixed) == pull


def test_something_new_upstream_holds_it_again(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1", at_min=0)
    _, tag = house.pull("Creek", 50_000, at_min=1)
    drum = house.drum("Tank 1", 100_000, at_min=10)
    number = _number(house, "Creek", "treated")
    house.do(Clear(drum, number, "lab: clean"))
    assert _through(house, drum) == ""
    late = house.do(Load(tag, "Tank 1", despite_hold="typed late"), at_min=5)
    assert _through(house, drum) == "Creek"
    house.do(Clear(drum, number, "lab: clean, both pulls"))
    assert _through(house, drum) == ""
    house.do(Reverse(late.entries[0].id, "it was not loaded"))
    assert _through(house, drum) == ""


def test_the_target_itself_is_released(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    _number(house, pull)
    assert turned_down(house, Clear(pull, pull, "lab: clean")) == (
        f"{pull} is what the hold stands on: it is released, not cleared. Use release, by name."
    )
    own = refusal_of(house, Release(drum.lower(), "lab: clean"))
    assert own.text == (
        f"{drum} has no hold of its own: it is held through {pull}. Release that, which frees all "
        f"that is made of it, or clear {drum} alone by name."
    )
    assert own.offers == (pull,)
    house.do(Release(pull, "lab: clean"))
    assert _through(house, drum) == ""
    assert (
        refusal_of(house, Release(pull, "again")).text
        == f"There is no open hold on {pull}. Look at the list of holds."
    )


def test_a_hold_and_its_release_can_be_reversed(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    number = _number(house, pull)
    release = house.do(Release(number, "lab: clean")).entries[0].id
    house.do(Reverse(release, "wrong report"))
    assert _through(house, drum) == pull
    house.do(Reverse(int(number), "wrong pull"))
    assert _through(house, drum) == ""


def test_unknown_honey_is_on_hold_until_it_is_released(house: BuiltHouse) -> None:
    unknown, _, drum = house.do(Fill("Tank 1", Weight(net_g=290_000))).codes
    assert _through(house, drum) == unknown
    house.do(Release(unknown, "found the pallet's sheet"))
    assert _through(house, drum) == ""


def test_several_holds_on_one_lot_are_told_apart_by_number(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    first, second = _number(house, pull, "smoke"), _number(house, pull, "moths")
    assert turned_down(house, Release(pull, "lab: clean")) == (
        f"There are several holds on {pull}: give the number of the one, {first} or {second}."
    )
    house.do(Release(second, "no moths"))
    assert _through(house, drum) == pull
    house.do(Release(pull, "no smoke"))
    assert _through(house, drum) == ""


def test_what_a_hold_refuses(house: BuiltHouse) -> None:
    pull, _ = house.pull("Creek", 100_000)
    said = {
        "reason": turned_down(house, PutOnHold(pull, " ")),
        "days": turned_down(
            house, PutOnHold("Creek", "x", first_day="2026-07-12", last_day="2026-07-10")
        ),
        "day": turned_down(house, PutOnHold("Creek", "x", first_day="12.7.2026")),
        "vessel": turned_down(house, PutOnHold("Tank 2", "x")),
        "container": turned_down(house, PutOnHold("17", "x")),
        "name": turned_down(house, PutOnHold("Moor", "x")),
        "nothing": turned_down(house, PutOnHold("", "x")),
    }
    assert said == {
        "reason": "Give the reason in a word or two.",
        "days": "The hold ends on 10 Jul 2026, before it begins on 12 Jul 2026. Correct the days.",
        "day": "12.7.2026 is not a day: write it like 2026-07-24.",
        "vessel": "Nothing stands in Tank 2. Hold the lot that was there, by its code.",
        "container": "Nothing stands in 17. Hold the lot that was there, by its code.",
        "name": "There is no yard, vessel or container called Moor. Choose one, such as 17, "
        "Creek, Hill or Tank 1, or register it first.",
        "nothing": "Name the yard, vessel or container, or scan its code.",
    }


def test_what_clearing_and_releasing_refuse(house: BuiltHouse) -> None:
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    other, _ = house.pull("Hill", 100_000)
    _number(house, pull)
    signer = "Say who signs: scan a badge, or name a person who works here."
    assert turned_down(house, Clear(drum, pull, "clean"), operator="") == signer
    assert turned_down(house, Release(pull, "clean"), operator="") == signer
    reason = "Give the reason in a word or two."
    assert turned_down(house, Clear(drum, pull, "")) == reason
    assert turned_down(house, Release(pull, " ")) == reason
    assert turned_down(house, Clear(other, pull, "clean")) == (
        f"{other} is not on hold through {pull}: nothing to clear."
    )
    for facts in (Clear(drum, other, "clean"), Release(other, "clean")):
        assert (
            turned_down(house, facts)
            == f"There is no open hold on {other}. Look at the list of holds."
        )
    assert (
        turned_down(house, Release("", "clean"))
        == "There is no open hold on that. Look at the list of holds."
    )


def test_one_hold_may_stand_on_several_lots_for_one_cause(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    first, second, free = (house.drum("Tank 1", 90_000) for _ in range(3))
    asked = "Say what these lots are held for: a sieve, a scale, a check."
    assert turned_down(house, PutOnHold(" ", "mesh broke", lots=(first,))) == asked
    sieve = house.do(Register("equipment", {"name": "Sieve"})).given[0]
    done = house.do(PutOnHold(sieve, "mesh broke", lots=(first, second, first)))
    assert len(done.entries) == 1
    assert [_through(house, code) for code in (first, second, free)] == ["Sieve", "Sieve", ""]
    house.do(Release("sieve", "nothing found in them"))
    assert _through(house, first) == ""
