"""Honey of a drum, a pail or a vessel given to bees: gone for good, and what to be careful of."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.warming import Warm
from honeyledger.ledger.verbs.yards import FeedYard
from honeyledger.services.cards import lot_card
from tests.support.books import holding, postings, standing, turned_down
from tests.support.houses import BuiltHouse

CARE = (
    "Honey fed to bees can carry foulbrood and residues: only your own, from healthy colonies, "
    "and as your local code has it."
)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank")
    house.container("Pail 3", usual_g=15_000)
    house.load("Creek", 300_000, "Tank")
    return house


def _feed(source: str, net_g: int | None = None, **more: bool | str) -> FeedYard:
    return FeedYard("Creek", net_g=net_g, source=source, **more)  # type: ignore[arg-type]


def test_a_pail_goes_to_the_bees_of_its_own_yard(house: BuiltHouse) -> None:
    pail = house.do(Fill("Tank", Weight(net_g=15_000), container="Pail 3")).codes[-1]
    done = house.do(_feed("Pail 3", whole=True))
    fed = "fed/Y26-0001-P"
    assert postings(house, done) == {(pail, "Pail 3", -15_000), (pail, fed, 15_000)}
    assert done.notes == (CARE,)
    told = house.house.ask(lambda view: lot_card(view, pail)).history[-1]
    assert told.sentence == "Fed: 15.0 kg from drum Pail 3 to bees of Creek."
    house.do(Reverse(done.entries[0].id, "it stayed here"))
    assert standing(house, "Pail 3") == {pail: 15_000}


def test_honey_of_other_yards_or_heated_is_told_of(house: BuiltHouse) -> None:
    house.load("Hill", 100_000, "Tank")
    drum = house.drum("Tank", 200_000)
    house.do(Warm(drum, 450, 60))
    assert house.do(_feed(drum, 20_000)).notes == (
        CARE,
        f"{drum} has honey of Hill in reach, and Creek gets it: be sure that their colonies are "
        "healthy.",
        f"{drum} was heated: its HMF can harm bees. Give them other honey.",
    )
    assert sum(holding(house, drum)[f"drum/{drum}"]) == 180_000


def test_honey_of_a_vessel_with_supers_on_holds_the_yards_pulls(house: BuiltHouse) -> None:
    done = house.do(_feed("Tank", 20_000, supers_on=True))
    assert sum(standing(house, "Tank").values()) == 280_000
    assert done.notes[-1] == (
        "Pulls of Creek are held from 24 Jul 2026 on, until someone releases them: fed 20.0 kg of "
        "honey on 24 Jul 2026 with supers on."
    )


def test_what_feeding_honey_refuses(house: BuiltHouse) -> None:
    drum = house.drum("Tank", 200_000)
    assert turned_down(house, _feed(drum)) == "Type the net weight, or say that all of it goes."
    house.do(PutOnHold(drum, "foulbrood near it"))
    assert turned_down(house, _feed(drum, 1_000)) == (
        f"{drum} is on hold through {drum}: foulbrood near it. It can go on only if a named "
        "person says why."
    )
    done = house.do(_feed(drum, 1_000, despite_hold="tested"))
    assert done.notes[0] == f"{drum} went on although held through {drum}: tested."


def test_honey_the_books_do_not_see_is_fed_too(house: BuiltHouse) -> None:
    """The floor is right: what was given was there, and its source is to be found."""
    house.vessel("Melter")
    done = house.do(_feed("Melter", 1_000))
    assert done.notes[0].startswith("The books saw 0.0 kg in Melter, 1.0 kg too little.")
    assert done.notes[1:] == (CARE,)
