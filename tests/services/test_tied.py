"""What a mixture would tie together, by hand on a small house; the sum against a trace forward."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.exposure import called_back
from honeyledger.services.tied import Tied, tied_by, tied_by_codes
from tests.support.houses import BuiltHouse


@pytest.fixture(scope="module")
def cellar() -> tuple[BuiltHouse, list[str]]:
    """Three drums of Alder, of which one was sold; one of Bend, from a washed tank."""
    house = BuiltHouse()
    for name in ("Alder", "Bend"):
        house.yard(name)
        house.vessel(f"Tank {name}")
    house.do(Register("customer", {"name": "Packer"}))
    house.load("Alder", 300_000, "Tank Alder")
    drums = [house.drum("Tank Alder", 100_000) for _ in range(3)]
    house.load("Bend", 50_000, "Tank Bend")
    drums.append(house.drum("Tank Bend", 40_000))
    house.do(Dispatch("Packer", (DispatchLine(drums[0]),)))
    return house, drums


def tied(house: BuiltHouse, *codes: str) -> Tied | None:
    return house.house.ask(lambda view: tied_by_codes(view, codes))


def test_the_worst_source_with_what_only_comes_back_by_mixing(
    cellar: tuple[BuiltHouse, list[str]],
) -> None:
    house, drums = cellar
    assert tied(house, drums[1], drums[3]) == Tied(140_000, 2, "Alder", 340_000, 0, 1, 40_000)


def test_of_one_source_it_is_what_would_be_called_back_anyway(
    cellar: tuple[BuiltHouse, list[str]],
) -> None:
    house, drums = cellar
    alone = tied(house, drums[1], drums[2].lower())
    called = house.house.ask(lambda view: called_back(view, "Alder"))
    assert alone is not None
    assert (alone.back_g, alone.customers, alone.more_g) == (called.grams, called.customers, 0)


def test_of_nothing_there_is_no_source(cellar: tuple[BuiltHouse, list[str]]) -> None:
    assert cellar[0].house.ask(lambda view: tied_by(view, {})) is None


def test_what_has_no_honey_is_refused(cellar: tuple[BuiltHouse, list[str]]) -> None:
    house, drums = cellar
    with pytest.raises(Refusal) as refused:
        tied(house, drums[1], drums[0])
    assert str(refused.value) == (
        f"{drums[0]} is no drum or tank with honey in it. Scan what is to go together, or one "
        "code alone."
    )
