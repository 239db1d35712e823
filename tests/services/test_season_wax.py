"""Wax against the usual, and scrapped comb in honey."""

import pytest

from honeyledger.ledger.verbs.by_products import Melt
from honeyledger.ledger.verbs.floor import Cappings, OpenRun
from honeyledger.ledger.verbs.leftovers import SetAside
from honeyledger.services.season_books import season_books
from honeyledger.services.season_losses import losses
from honeyledger.services.season_wax import Wax, comb_costs, season_wax
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _wax(house: BuiltHouse) -> Wax:
    def asked(view: object) -> Wax:
        books = season_books(view, 2026, house.now_ms)  # type: ignore[arg-type]
        return season_wax(books, losses(books))

    return house.house.ask(asked)


def test_wax_of_a_season_against_what_is_usual() -> None:
    house = BuiltHouse()
    house.yard("Ash")
    house.vessel("Line", sort="line")
    house.vessel("Tank", fed_by="Line")
    house.vessel("Melter", sort="melter")
    assert _wax(house) == Wax(0, 0, 0, 0, 0)
    run = code_in(house.do(OpenRun("Line", tank="Tank")), "R")
    house.load("Ash", 300_000, "Line", run=run)
    house.drum("Tank", 200_000, run=run)
    barrel = code_in(house.do(Cappings("Line", 30_000), run=run), "W")
    before = _wax(house)
    assert (before.cappings_g, before.waiting_g, before.verdict) == (30_000, 30_000, "")
    house.pour(barrel, "Melter")
    house.do(Melt("Melter", wax_g=3_000, honey_g=22_000, residue_g=5_000))
    found = _wax(house)
    assert (found.wax_g, found.honey_g, found.waiting_g) == (3_000, 200_000, 0)
    assert (found.share, found.verdict) == (150, "usual")


@pytest.mark.parametrize(
    ("wax_g", "verdict"),
    [(990, "low"), (1_000, "usual"), (2_000, "usual"), (2_010, "high"), (0, "")],
)
def test_usual_is_one_to_two_in_a_hundred(wax_g: int, verdict: str) -> None:
    assert Wax(wax_g, 100_000, 0, 0, 0).verdict == verdict


def test_a_pound_of_destroyed_comb_costs_three_to_four_and_a_half_kilograms() -> None:
    # 7 to 10 lb of honey for 1 lb of wax: 3.2 to 4.5 kg (common practice, no source).
    low, high = comb_costs(454)
    assert (round(low / 1_000, 1), round(high / 1_000, 1)) == (3.2, 4.5)


def test_scrapped_frames_are_counted_by_their_boxes() -> None:
    house = BuiltHouse()
    house.yard("Ash")
    _, tag = house.pull("Ash", 300_000, count=20)
    house.do(SetAside(tag, "spoilt", "scrap", count=2))
    house.do(SetAside(tag, "spoilt", "scrap", frames=5))
    house.do(SetAside(tag, "set", "stays", count=1))
    found = _wax(house)
    assert found.frames == 2 * 9 + 5
    assert found.lost_honey_g == (23 * 700, 23 * 1_000)
