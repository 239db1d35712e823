"""Stacks far off the others, each with the slip that was made of it."""

import pytest

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.season_books import season_books
from honeyledger.services.season_slips import Slip, slips, stacks_of
from tests.support.houses import BuiltHouse

EMPTY, HONEY, TARE = 6_000, 15_000, 42_000


@pytest.fixture
def house() -> BuiltHouse:
    """Eighteen stacks of 40 medium and nine of 30 deep supers, a little apart from each other."""
    made = BuiltHouse()
    made.yard("Ash")
    made.do(Register("box", {"name": "deep", "honey_g": 22_000, "tare_g": 9_000}))
    for at in range(18):
        net = 40 * (HONEY + 90 * (at - 8))
        made.do(Receive((Line("Ash", 40),), TARE + 40 * EMPTY + net, TARE))
    for at in range(9):
        net = 30 * (22_000 + 100 * (at - 4))
        made.do(Receive((Line("Ash", 30, "deep"),), TARE + 30 * 9_000 + net, TARE))
    return made


def _slip(house: BuiltHouse, facts: Receive) -> Slip:
    code = house.do(facts).entries[0].lots[0].code
    found = house.house.ask(lambda view: slips(season_books(view, 2026, house.now_ms)))
    return next(slip for slip in found if slip.stack.code == code)


GROSS = TARE + 40 * EMPTY + 40 * HONEY


@pytest.mark.parametrize(
    ("facts", "likely", "net_kg"),
    [
        (
            Receive((Line("Ash", 4),), TARE + 4 * EMPTY + 4 * HONEY, 0),
            "weighed with its pallet: the usual tare was not taken off",
            60,
        ),
        (
            Receive((Line("Ash", 4),), TARE + 4 * EMPTY + 4 * HONEY, 84_000),
            "too much tare was taken off",
            60,
        ),
        (
            Receive((Line("Ash", 5),), 2 * TARE + 5 * EMPTY + 5 * HONEY, TARE),
            "weighed with a second pallet",
            75,
        ),
        (
            Receive((Line("Ash", 40),), round(GROSS / 0.45359237), TARE),
            "the scale showed pounds, typed as kilograms",
            600,
        ),
        (
            Receive((Line("Ash", 40),), round(GROSS * 0.45359237), TARE),
            "the scale showed kilograms, typed as pounds",
            600,
        ),
        (
            Receive((Line("Ash", 24),), TARE + 42 * EMPTY + 42 * HONEY, TARE),
            "42 supers counted, 24 typed",
            630,
        ),
        (
            Receive((Line("Ash", 20, sheet=39),), TARE + 39 * EMPTY + 39 * HONEY, TARE),
            "by the pull sheet 39 supers, 20 typed",
            585,
        ),
        (
            Receive((Line("Ash", 30),), TARE + 30 * 9_000 + 30 * 22_000, TARE),
            "deep supers, typed as medium",
            None,
        ),
        (Receive((Line("Ash", 40),), GROSS + 40 * 13_125, TARE), "", None),
    ],
)
def test_the_slip_that_was_made(
    house: BuiltHouse, facts: Receive, likely: str, net_kg: int | None
) -> None:
    slip = _slip(house, facts)
    assert slip.likely == likely
    assert abs(slip.score) > 3.5
    assert slip.usual_g == pytest.approx(HONEY, abs=200)
    if net_kg is not None:
        assert slip.net_g == pytest.approx(net_kg * 1_000, abs=2)


def test_stacks_as_they_were_typed(house: BuiltHouse) -> None:
    found = house.house.ask(lambda view: stacks_of(season_books(view, 2026, house.now_ms)))
    first = found[0]
    assert (first.supers, first.box, first.tare_g, first.yards) == (40, "medium", TARE, ("Ash",))
    assert first.a_super == pytest.approx(HONEY - 720)
    mixed = (Line("Ash", 10), Line("Ash", 10, "deep"))
    house.do(Receive(mixed, TARE + 10 * 15_000 + 10 * 37_000, TARE))
    house.do(Receive((Line("Ash", 12),)))
    again = house.house.ask(lambda view: stacks_of(season_books(view, 2026, house.now_ms)))
    assert len(again) == len(found)


def test_of_few_stacks_nothing_is_said() -> None:
    made = BuiltHouse()
    made.yard("Ash")
    made.do(Receive((Line("Ash", 4),), TARE + 4 * EMPTY + 4 * HONEY, 0))
    assert made.house.ask(lambda view: slips(season_books(view, 2026, made.now_ms))) == ()
