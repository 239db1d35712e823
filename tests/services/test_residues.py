"""A residue's spread: by hand on a small house, its bounds on the sample season."""

from pathlib import Path

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.services.residues import MAY_BE, OVER, UNDER, ResidueLot, residue_spread
from tests.support.houses import BuiltHouse
from tests.support.sample import sample_house


def mixed() -> tuple[BuiltHouse, str, str]:
    """100 kg of Creek under 300 kg of Hill: a drum of 200 kg, then one of what is left."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.load("Creek", 100_000, "Tank 1")
    house.load("Hill", 300_000, "Tank 1")
    first = house.drum("Tank 1", 200_000)
    return house, first, house.drum("Tank 1", 200_000)


def rows(house: BuiltHouse, limit: int | None = None) -> dict[str, ResidueLot]:
    found = house.house.ask(lambda view: residue_spread(view, "Creek", 40_000, limit))
    return {row.code: row for row in found.lots}


def test_a_quarter_of_it_has_a_quarter_and_half_at_the_worst() -> None:
    house, first, second = mixed()
    found = rows(house)
    for drum in (first, second):
        assert found[drum].share == 0.25
        # 40 µg/kg: a quarter of it by share; all 100 kg in one drum of 200 kg at the worst.
        assert (found[drum].expected, found[drum].most) == (10_000, 20_000)
        assert (found[drum].here_g, found[drum].sent_g, found[drum].judged) == (200_000, 0, "")
    pull = next(row for row in found.values() if row.noun == "pull")
    assert (pull.expected, pull.most) == (40_000, 40_000)


@pytest.mark.parametrize(
    ("limit", "judged"), [(9_999, OVER), (10_000, MAY_BE), (19_999, MAY_BE), (20_000, UNDER)]
)
def test_it_is_held_against_a_limit(limit: int, judged: str) -> None:
    house, first, _ = mixed()
    assert rows(house, limit)[first].judged == judged


def test_bounds_hold_on_the_sample(tmp_path: Path) -> None:
    house = sample_house(tmp_path)
    found = house.ask(lambda view: residue_spread(view, "Fennimark", 25_000))
    house.store.close()
    assert len(found.lots) > 100
    assert all(0 <= row.expected <= row.most <= 25_000 for row in found.lots)
    # What stands somewhere now never has more of it than there was.
    there = sum(row.expected * (row.here_g + row.sent_g) for row in found.lots)
    assert there <= 25_000 * found.source_g * 1.01
    assert list(found.lots) == sorted(
        found.lots, key=lambda row: (-row.expected, -row.most, row.code)
    )


def test_a_level_has_to_be_one() -> None:
    house, *_ = mixed()
    with pytest.raises(Refusal) as refused:
        house.house.ask(lambda view: residue_spread(view, "Creek", 0))
    assert str(refused.value) == "Say the level: a figure above 0, in µg/kg."
