"""Weights that follow: what each guess was off by, when the drum is weighed."""

import pytest

from honeyledger.ledger.places import DRUM
from honeyledger.ledger.run_balance import balance_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.to_follow import guesses_of, off_by
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Bung, Fill, Reweigh
from honeyledger.ledger.verbs.floor import CloseRun, OpenRun
from tests.support.books import code_in, mark, place, standing, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A tank with honey, and drum 17, of which 200 kg are usual and 230 kg the most."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.container("17", tare_g=18_000, usual_g=200_000, limit_g=230_000)
    house.load("Creek", 900_000, "Tank 1")
    return house


def _guess(house: BuiltHouse, **how: object) -> int:
    """A part of drum 17 whose weight is to follow; its entry."""
    facts = Fill("Tank 1", container="17", pending=True, bung=False, **how)  # type: ignore[arg-type]
    return house.do(facts).entries[0].id


def _off(house: BuiltHouse, entry: int) -> int | None:
    return house.house.ask(lambda view: off_by(view, entry))


def test_two_guesses_share_what_the_scale_says_by_what_was_guessed(house: BuiltHouse) -> None:
    first, second = _guess(house), _guess(house)
    (drum,) = house.do(Bung("17")).codes
    rows = house.house.ask(lambda view: guesses_of(view, drum))
    assert rows == [(first, 200_000), (second, 30_000)]
    assert (_off(house, first), _off(house, second)) == (None, None)
    house.do(Reweigh(drum, Weight(net_g=215_000)))
    # 15,000 g less, by 200 to 30: 13,043.48 and 1,956.52
    assert (_off(house, first), _off(house, second)) == (-13_043, -1_957)
    assert house.house.ask(lambda view: guesses_of(view, drum)) == []
    assert mark(house, drum, "pending") == 0


def test_what_was_weighed_keeps_its_weight(house: BuiltHouse) -> None:
    weighed = house.do(Fill("Tank 1", Weight(net_g=80_000), container="17", bung=False))
    guessed = _guess(house)
    (drum,) = house.do(Bung("17")).codes
    house.do(Reweigh(drum, Weight(net_g=190_000)))
    assert _off(house, weighed.entries[0].id) is None
    assert _off(house, guessed) == -10_000


def test_two_runs_are_each_credited_what_they_guessed_and_no_gram_twice(
    house: BuiltHouse,
) -> None:
    runs = []
    for _ in range(2):
        run = code_in(house.do(OpenRun("Line")), "R")
        house.do(Fill("Tank 1", container="17", pending=True, bung=False), run=run)
        house.do(CloseRun(run))
        runs.append(run)
    (drum,) = house.do(Bung("17")).codes

    def rows() -> list[tuple[int, bool]]:
        found = [house.house.ask(lambda view, one=one: balance_of(view, one)) for one in runs]
        return [(row.grams, row.pending) for balance in found for row in balance.drums]

    assert rows() == [(200_000, True), (30_000, True)]
    house.do(Reweigh(drum, Weight(net_g=184_000)))
    assert rows() == [(160_000, False), (24_000, False)]
    (entry,) = house.do(Reweigh(drum, Weight(net_g=183_000))).entries
    assert rows() == [(160_000, False), (24_000, False)]  # a second weighing is a loss
    house.do(Reverse(entry.id, "the scale was not level"))
    house.do(Reverse(entry.id - 1, "the wrong drum was weighed"))
    assert rows() == [(200_000, True), (30_000, True)]


def test_a_drum_that_waits_for_more_may_be_weighed_before_it_is_closed(
    house: BuiltHouse,
) -> None:
    guessed = _guess(house)
    house.do(Reweigh("17", Weight(net_g=120_000)))
    assert _off(house, guessed) == -80_000
    house.do(Fill("Tank 1", Weight(net_g=75_000), container="17"))
    (drum,) = standing(house, "17")
    assert standing(house, "17") == {drum: 195_000}
    assert mark(house, drum, "pending") is None


def test_a_drum_topped_up_before_it_was_weighed_still_waits_for_its_weight(
    house: BuiltHouse,
) -> None:
    old = house.do(Fill("Tank 1", container="17", pending=True))
    code = old.codes[-1]
    new = house.do(Fill("Tank 1", Weight(net_g=25_000), container="17", top_up=True)).codes[-1]
    assert (mark(house, code, "pending"), mark(house, new, "pending")) == (0, 1)
    house.do(Reweigh("17", Weight(net_g=209_000)))
    assert _off(house, old.entries[0].id) == -16_000
    assert standing(house, "17") == {new: 209_000}


def test_a_guess_does_not_keep_out_what_was_weighed(house: BuiltHouse) -> None:
    """200 kg were guessed, 150 kg more went in: it was less than half full."""
    _guess(house)
    done = house.do(Fill("Tank 1", Weight(net_g=150_000), container="17"))
    assert standing(house, "17") == {done.codes[-1]: 350_000}
    assert done.notes == (
        "350.0 kg in all is unusual for this container (usual 200.0 kg): check pounds against "
        "kilograms, and gross against tare.",
    )
    house.do(Reweigh("17", Weight(net_g=221_000)))
    facts = Fill("Tank 1", Weight(net_g=15_000), container="17", top_up=True)
    assert turned_down(house, facts) == (
        f"17 is already full: it holds {done.codes[-1]} with 221.0 kg, and its limit is "
        "230.0 kg. Take another container."
    )


def test_a_container_used_again_forgets_what_was_guessed_in_it(house: BuiltHouse) -> None:
    _guess(house)
    house.vessel("Tank 2")
    house.pour("17", "Tank 2")
    facts = Fill("Tank 1", Weight(net_g=190_000), container="17", washed=True)
    drum = house.do(facts).codes[-1]
    assert mark(house, drum, "pending") is None
    where = place(house, "17")
    assert where.startswith(f"{DRUM}/")
    assert mark(house, where, "pending") == 0
