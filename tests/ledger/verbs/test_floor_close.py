"""Closing a run: heels by dip against weighing difference, and the balance frozen as signed."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import CloseRun, Heel, Load, OpenRun
from tests.support.books import (
    code_in,
    grams_at,
    mark,
    origins,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> tuple[BuiltHouse, str]:
    """A yard, a line that feeds Tank 1, and a run open on it."""
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    return house, code_in(house.do(OpenRun("Line")), "R")


def test_the_dip_is_right() -> None:
    house, run = _house()
    house.load("Creek", 300_000, "Line", run=run)
    house.drum("Tank 1", 290_000, run=run)
    (code,) = standing(house, "Tank 1")
    done = house.do(CloseRun(run, (Heel("Tank 1", 12_000),)))
    assert postings(house, done) == {(code, "difference", -2_000), (code, "Tank 1", 2_000)}
    assert standing(house, "Tank 1") == {code: 12_000}
    again = code_in(house.do(OpenRun("Line")), "R")
    empty = house.do(CloseRun(again, (Heel("Tank 1", 0),)))
    assert postings(house, empty) == {
        (code, "difference", 12_000),
        (code, "Tank 1", -12_000),
    }
    assert standing(house, "Tank 1") == {code: 0}


def test_a_dip_settles_what_stands_mixed_line_and_all() -> None:
    house, run = _house()
    one = house.load("Creek", 100_000, "Line", run=run)
    two = house.load("Creek", 50_000, "Tank 1", run=run)
    line_fill, fill = house.do(CloseRun(run, (Heel("Tank 1", 150_001),))).codes
    assert origins(house, line_fill) == {one: 100_000}
    assert origins(house, fill) == {line_fill: 100_000, two: 50_000}
    assert standing(house, "Tank 1") == {fill: 150_001}
    assert grams_at(house, "difference") == -1


def test_a_dip_that_agrees_posts_nothing() -> None:
    house, run = _house()
    pull = house.load("Creek", 100_000, "Tank 1", run=run)
    done = house.do(CloseRun(run, (Heel("Tank 1", 100_000),)))
    assert (done.codes, postings(house, done)) == ((), set())
    assert standing(house, "Tank 1") == {pull: 100_000}


def test_a_dip_where_the_books_know_of_nothing_is_unknown_honey() -> None:
    house, run = _house()
    done = house.do(CloseRun(run, (Heel("Tank 1", 5_000),)))
    (unknown,) = done.codes
    assert standing(house, "Tank 1") == {unknown: 5_000}
    assert done.notes == (
        f"The books saw 0.0 kg in Tank 1, 5.0 kg too little. {unknown} stands for the rest, on "
        "hold: amend it to the pallet it came from.",
    )


def test_a_dip_after_a_wash_within_the_margin() -> None:
    """What the margin keeps may have come in after the wash: then the 5 kg are of it."""
    house, run = _house(margin_min=60)
    pull = house.load("Creek", 100_000, "Tank 1", run=run)
    house.wash("Tank 1", remains="discarded", run=run)
    assert standing(house, "Tank 1") == {pull: 0}
    done = house.do(CloseRun(run, (Heel("Tank 1", 5_000),)))
    assert done.codes == ()
    assert standing(house, "Tank 1") == {pull: 5_000}


def test_a_vessel_run_empty_that_was_not_after_all() -> None:
    house, run = _house()
    house.load("Creek", 100_000, "Tank 1", run=run)
    house.drum("Tank 1", 100_000, run=run)
    (fill,) = standing(house, "Tank 1")
    house.do(CloseRun(run, (Heel("Tank 1", 4_000),)))
    assert standing(house, "Tank 1") == {fill: 4_000}


def test_the_balance_is_frozen_estimates_apart_from_losses() -> None:
    house, run = _house()
    house.load("Creek", 600_000, "Line", run=run)
    drum = house.drum("Tank 1", 290_000, run=run)
    house.do(Reweigh(drum, Weight(net_g=288_000)), run=run)
    facts = CloseRun(run, (Heel("Tank 1", 295_000, how="mark"),), cappings_pending=True)
    done = house.do(facts)
    signed = {
        "balance": {
            "in_g": 600_000,
            "out_g": 585_000,
            "heel_in_g": 0,
            "heel_out_g": 295_000,
            "estimate_gap_g": 13_000,
            "lost_g": 2_000,
            "supers": 10,
            "cappings_pending": 1,
        },
        "by": "O26-0001-X",
    }
    assert mark(house, f"run/{run}", "closed") == signed
    house.do(Reweigh(drum, Weight(net_g=280_000)), run=run)  # later weighings change nothing of it
    assert mark(house, f"run/{run}", "closed") == signed
    assert done.entries[0].act.run == run


def test_a_run_is_closed_once_and_takes_nothing_more() -> None:
    house, run = _house()
    _, tag = house.pull("Creek", 100_000)
    house.do(CloseRun(run))
    closed = f"{run} is closed. Open a new run, or correct the entry that is wrong."
    assert turned_down(house, CloseRun(run)) == closed
    assert turned_down(house, Load(tag, "Line"), run=run) == closed
    assert turned_down(house, Fill("Tank 1", Weight(net_g=1)), run=run) == closed


def test_what_closing_refuses() -> None:
    house, _ = _house()
    assert turned_down(house, CloseRun()) == "Say which run to close."
    _, tag = house.pull("Creek", 100_000)
    assert turned_down(house, CloseRun(tag)) == (
        f"{tag} is not a run of this house. Open a run first."
    )
    run = code_in(house.do(OpenRun("Line")), "R")
    assert turned_down(house, CloseRun(run, (Heel("Tank 1", -3_000),))) == (
        "A heel of −3.0 kg in Tank 1 cannot be: dip again, or say 0 for empty."
    )
    assert turned_down(house, CloseRun(run, (Heel("Tank 7", 3_000),))) == (
        "There is no vessel called Tank 7. Choose one, such as Tank 1, or register it first."
    )
    assert turned_down(house, CloseRun(run, (Heel("Tank 1", 3_000, "spoon"),))) == (
        "spoon is no way to read a heel: say dip, mark or guess."
    )
    assert turned_down(house, CloseRun(run), operator="") == (
        "Say who signs: scan a badge, or name a person who works here."
    )


def test_one_vessel_has_one_dip() -> None:
    house, run = _house()
    house.load("Creek", 300_000, "Line", run=run)
    assert turned_down(house, CloseRun(run, (Heel("Tank 1", 12_000), Heel("tank 1", 9_000)))) == (
        "Tank 1 stands twice on this list. Leave it there once, with its whole amount."
    )
