"""Labels put on later, under one product or two, and complaints about jars."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.jars import Complain, LabelJars
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from tests.support.books import code_in, mark, origins, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.load("Creek", 200_000, "Tank")
    for name in ("Clover", "Farm shop clover"):
        house.do(Register("product", {"name": name, "net_g": 500}))
    house.do(Register("supplier", {"name": "Glassworks"}))
    return house


def _jars(house: BuiltHouse, count: int = 100, packaging: tuple[str, ...] = ()) -> str:
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, count, packaging=packaging))
    return code


def _supply(house: BuiltHouse, name: str, count: int) -> str:
    return house.do(Supply("Glassworks", "packaging", name, count=count)).codes[0]


def test_jars_are_labelled_later_under_two_products(house: BuiltHouse) -> None:
    jars = _jars(house)
    first = house.do(LabelJars(jars, 60, roll_first=1001, roll_last=1062, torn=2))
    assert first.notes == ()
    second = LabelJars(jars, 40, product="farm shop clover", seal_first="99", seal_last="138")
    assert house.do(second).notes == (
        f"{jars} stands on labels of Clover already: whoever is warned of the code by one "
        "product's name has to hear of the other.",
    )
    assert mark(house, jars, f"labelled/{first.entries[0].id}")["product"] == "clover"
    assert turned_down(house, LabelJars(jars, 1)) == (
        f"Of {jars} 0 are left without a label, not 1. Count again."
    )


def test_a_roll_that_does_not_add_up_is_said(house: BuiltHouse) -> None:
    jars = _jars(house)
    assert house.do(LabelJars(jars, 60, roll_first=1, roll_last=65, torn=2)).notes == (
        "The roll gave 65 labels for 60 jars and 2 torn: 3 too many. Find them, or keep the "
        "strip.",
    )
    assert house.do(LabelJars(jars, 40, roll_first=66, roll_last=104)).notes == (
        "The roll gave 39 labels for 40 jars and 0 torn: 1 too few. Find them, or keep the strip.",
    )


def test_packaging_is_in_reach_and_used_up(house: BuiltHouse) -> None:
    glass, lids, labels = (_supply(house, name, 120) for name in ("jars", "lids", "labels"))
    jars = _jars(house, 100, (glass, lids))
    assert {glass: 0, lids: 0}.items() <= origins(house, jars).items()
    assert house.do(LabelJars(jars, 100, torn=30, packaging=(labels,))).notes == (
        f"The books saw 120 of {labels} and 130 were used: count what is left, or name the second "
        "lot as well.",
    )
    assert origins(house, jars)[labels] == 0
    assert house.shares(jars) == {"Creek": 1.0}
    assert {row.code for row in house.forward(glass).lots} == {glass, jars}


def test_packaging_on_hold_is_asked_about(house: BuiltHouse) -> None:
    glass = _supply(house, "jars", 120)
    house.do(PutOnHold(glass, "splinters"))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    assert turned_down(house, Bottle(code, 10, packaging=(glass,))).startswith(
        f"{glass} is on hold through {glass}: splinters."
    )


def test_a_complaint_is_kept_with_its_lot_and_answered(house: BuiltHouse) -> None:
    jars = _jars(house)
    first = house.do(Complain(jars, "a splinter of glass", "Orla")).entries[0].id
    assert house.do(Complain(jars, "not full")).notes == (
        f"Complaints about {jars} before this one: 1. Look at them together. What may hurt "
        "someone is held and told to your authority.",
    )
    house.do(Complain(jars, "a splinter of glass", "Orla", answer="replaced", completes=first))
    assert mark(house, jars, f"complaint/{first}")["answer"] == "replaced"


def test_what_they_refuse(house: BuiltHouse) -> None:
    jars = _jars(house)
    cinnamon = house.do(Supply("Glassworks", "ingredient", "cinnamon", Weight(net_g=1_000))).codes[
        0
    ]
    said = [
        turned_down(house, LabelJars(jars, 0)),
        turned_down(house, LabelJars(jars, 1, torn=-1)),
        turned_down(house, LabelJars(jars, 1, roll_first=5, roll_last=4)),
        turned_down(house, LabelJars(jars, 1, seal_first="100", seal_last="99")),
        turned_down(house, LabelJars(jars, 1, packaging=(cinnamon,))),
        turned_down(house, Complain(jars, " ")),
        turned_down(house, Complain(jars, "x", completes=3)),
        turned_down(house, Complain(jars, "x", day="2030-01-01")),
    ]
    assert said == [
        f"Say how many jars of {jars} were labelled.",
        "-1 torn labels cannot be: type 0 or more.",
        "The roll ends at 4, before it began at 5. Read both again.",
        "The seals end with 99, before 100. Read both again.",
        f"{cinnamon} is an ingredient, not packaging: it goes in by weight, with what is blended.",
        "Say what the complaint is.",
        f"Entry 3 is no complaint about {jars}. Give the number of the entry that took it in.",
        "1 Jan 2030 is still to come. Type the day on which it was done.",
    ]


def test_a_label_of_another_net_content_or_with_a_claim_is_said(house: BuiltHouse) -> None:
    jars = _jars(house)
    house.do(Register("product", {"name": "Small clover", "net_g": 250}))
    house.do(Register("product", {"name": "Heath", "net_g": 500, "claims_region": "Moor"}))
    net = (
        f"Small clover says 250 g and {jars} was bottled at 500 g: what a label says must be in "
        "the jar. Look at both before any of them go."
    )
    claim = (
        f"The label of Heath claims a region, and {jars} was bottled as Clover, which does not: "
        "see what its make-up allows before any of them go."
    )
    assert house.do(LabelJars(jars, 10, product="Small clover")).notes == (net,)
    assert house.do(LabelJars(jars, 10, product="Heath")).notes[0] == claim
    assert house.do(LabelJars(_jars(house, 10), 10, product="Farm shop clover")).notes == ()
    assert house.do(Amend(jars, "wrong jar", product="Small clover")).notes == (net,)


def test_numbers_of_a_roll_and_of_seals_are_used_once(house: BuiltHouse) -> None:
    jars = _jars(house)
    first = LabelJars(jars, 10, roll_first=1, roll_last=10, seal_first="S 001", seal_last="S 010")
    entry = house.do(first).entries[0].id
    again = LabelJars(jars, 10, roll_first=10, roll_last=19, seal_first="S 010", seal_last="S 019")
    assert house.do(again).notes == (
        f"Labels 1 to 10 were used with entry {entry} before: read the roll again, unless it is "
        "another roll.",
        f"Seals S 001 to S 010 were put on with entry {entry} before: read their numbers again.",
    )
    on = LabelJars(jars, 10, roll_first=20, roll_last=29, seal_first="S 020", seal_last="S 029")
    assert house.do(on).notes == ()
    assert house.do(LabelJars(jars, 10)).notes == ()
