"""Drums for a bottling: enough for the jars, none that the label refuses, few sources."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.optimisation.plans import SolverPlanner
from honeyledger.services.bottling_plan import (
    NOT_AS_LABELLED,
    BottlingAsked,
    bottling_and_drums,
    bottling_asked,
    named_in,
    plan_bottling,
)
from honeyledger.services.recall_plans import Plan
from tests.support.houses import BuiltHouse


@pytest.fixture(scope="module")
def cellar() -> tuple[BuiltHouse, list[str]]:
    """Two drums of 200 kg from Alder, one of 300 kg from Bend that began with Alder's heel."""
    house = BuiltHouse()
    house.yard("Alder", country="France")
    house.yard("Bend", country="Italy")
    house.vessel("Tank 1")
    house.load("Alder", 450_000, "Tank 1")
    drums = [house.drum("Tank 1", 200_000), house.drum("Tank 1", 200_000)]
    house.load("Bend", 300_000, "Tank 1")
    drums.append(house.drum("Tank 1", 300_000))
    for code in drums:
        house.do(Measure(code, moisture=1_750, colour=300))
    house.do(Register("product", {"name": "Alder 500 g", "net_g": 500, "claims_yard": "Alder"}))
    house.do(Register("product", {"name": "Any 500 g", "net_g": 500}))
    house.do(Register("product", {"name": "Set", "net_g": 500, "claims_countries": "France 100"}))
    plain = {"name": "Plain", "net_g": 500, "origin": "Product of France"}
    house.do(Register("product", plain))
    typed = "a blend of EU honeys, mostly of France"
    house.do(Register("product", {"name": "Loose", "net_g": 500, "origin": typed}))
    house.do(Register("product", {"name": "Gift", "sort": "sticker"}))
    return house, drums


def planned(house: BuiltHouse, product: str, jars: int) -> tuple[BottlingAsked, Plan]:
    asked, page = house.house.ask(
        lambda view: bottling_and_drums(view, house.now_ms, product, jars)
    )
    plan = plan_bottling(page, asked, SolverPlanner(), 5.0, lambda _best, _bound: True)
    return asked, plan


def test_whole_drums_hold_the_jars_and_tie_the_fewest(
    cellar: tuple[BuiltHouse, list[str]],
) -> None:
    house, drums = cellar
    asked, plan = planned(house, "any 500 g", 700)
    (lot,) = plan.lots
    assert asked.least_g == 350_000
    assert set(lot.codes) == set(drums[:2])
    assert lot.sources == ("Alder",)
    assert plan.stopped == "proved"


def test_a_drum_the_label_refuses_stays_out(cellar: tuple[BuiltHouse, list[str]]) -> None:
    house, drums = cellar
    asked, plan = planned(house, "Alder 500 g", 500)
    assert asked.against == {drums[2]}
    assert plan.left_out[drums[2]] == NOT_AS_LABELLED
    assert set(plan.lots[0].codes) == set(drums[:2])
    assert planned(house, "Set", 500)[0].against == {drums[2]}, "Italy is not on its label"
    with pytest.raises(Refusal, match=r"The drums that may go in hold 400\.0.kg, less than"):
        planned(house, "Alder 500 g", 1_000)


def test_an_origin_typed_freely_is_judged_where_it_says_countries_alone(
    cellar: tuple[BuiltHouse, list[str]],
) -> None:
    house, drums = cellar
    asked, plan = planned(house, "Plain", 500)
    assert (asked.against, asked.told) == ({drums[2]}, ""), "Italy is not what is typed"
    assert plan.left_out[drums[2]] == NOT_AS_LABELLED
    loose = house.house.ask(lambda view: bottling_asked(view, "Loose", 10))
    assert (loose.against, loose.told) == (
        frozenset(),
        "No drum was judged by the origin typed for its label, a blend of EU honeys, mostly of "
        "France: it does not say countries on record alone. Compare it yourself.",
    )


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Product of France", {"France"}),
        ("Honey from FRANCE and New Zealand", {"France", "New Zealand"}),
        ("not of France", set()),
        ("France, packed in Italy", set()),
        ("Product of Canada", set()),
        ("honey", set()),
    ],
)
def test_countries_in_a_free_text(text: str, named: set[str]) -> None:
    assert named_in(text, ["France", "Italy", "New Zealand"]) == named


@pytest.mark.parametrize(
    ("product", "jars", "says"),
    [
        (
            "",
            10,
            "Type about how many jars of which product are to be filled; then drums can be "
            "proposed.",
        ),
        (
            "Gift",
            10,
            "Gift has no declared net content. Set it at Setup, then drums can be proposed.",
        ),
    ],
)
def test_what_cannot_be_planned_says_what_to_do(
    cellar: tuple[BuiltHouse, list[str]], product: str, jars: int, says: str
) -> None:
    with pytest.raises(Refusal) as refused:
        cellar[0].house.ask(lambda view: bottling_asked(view, product, jars))
    assert str(refused.value) == says
    assert refused.value.field == "product"


def test_no_jars_are_asked_after(cellar: tuple[BuiltHouse, list[str]]) -> None:
    with pytest.raises(Refusal) as refused:
        cellar[0].house.ask(lambda view: bottling_asked(view, "Any 500 g", 0))
    assert refused.value.field == "jars"
