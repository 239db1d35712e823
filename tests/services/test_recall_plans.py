"""Plans of a real house: what stays out and why, what is compared, and what is refused."""

from dataclasses import replace

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.optimisation.plans import SolverPlanner
from honeyledger.services.drums_page import DrumRow, DrumsPage, drums_page
from honeyledger.services.hot_room_page import HotRoomPage, hot_room_page
from honeyledger.services.planning import Runs, Wanted
from honeyledger.services.recall_plans import (
    NOT_AS_ASKED,
    NOT_OURS,
    TOO_LONG,
    Plan,
    plan_blend,
    plan_runs,
    runs_as_by_age,
    with_the_rest,
)
from tests.support.houses import BuiltHouse

PLANNER = SolverPlanner()


@pytest.fixture(scope="module")
def drums() -> DrumsPage:
    house = BuiltHouse()
    return house.house.ask(lambda view: drums_page(view, house.now_ms))


@pytest.fixture(scope="module")
def room() -> HotRoomPage:
    house = BuiltHouse()
    mill, bank = house.yard("Mill Lane"), house.yard("Willow Bank")
    for yard in (mill, bank, mill, bank):
        house.pull(yard, 100_000)
        house.wait(60)
    return house.house.ask(lambda view: hot_room_page(view, house.now_ms))


def drum(code: str, grams: int, *yards: str, **more: object) -> DrumRow:
    row = DrumRow(
        code, "", "", "drum", "ready", grams, 1750, 300, (), "", "", False, yards, int(code)
    )
    return replace(row, **more)  # type: ignore[arg-type]


def asked(page: DrumsPage, wanted: Wanted) -> Plan:
    return plan_blend(page, wanted, PLANNER, 10.0, lambda _best, _bound: True)


def ran(page: HotRoomPage, runs: Runs, own: tuple[tuple[str, ...], ...] = ()) -> Plan:
    return plan_runs(page, runs, PLANNER, 10.0, lambda _best, _bound: True, own)


def test_a_blend_ties_the_fewest_and_says_what_stayed_out(drums: DrumsPage) -> None:
    page = replace(
        drums,
        rows=(
            drum("1", 300_000, "Mill Lane"),
            drum("2", 300_000, "Mill Lane"),
            drum("3", 300_000, "Willow Bank", "Top Road"),
            drum("4", 300_000, "Top Road", "Ash Hill"),
            drum("5", 300_000, "Mill Lane", state="hold"),
            drum("6", 300_000, "Mill Lane", owner="A Neighbour"),
            drum("7", 300_000, "Mill Lane", colour=800),
            drum("8", 300_000, "Mill Lane", state="not read", moisture=None),
        ),
    )
    plan = asked(page, Wanted(600_000, 600_000, 1800, darkest=500))
    assert [lot.codes for lot in plan.lots] == [("1", "2")]
    assert plan.lots[0].sources == ("Mill Lane",)
    assert (plan.lots[0].grams, plan.lots[0].moisture) == (600_000, 1750)
    assert plan.left_out == {"5": "hold", "6": NOT_OURS, "7": NOT_AS_ASKED, "8": "not read"}
    # The oldest two are 4 and 3, which tie three yards.
    assert plan.by_age_g is not None
    assert plan.expected_g < plan.by_age_g
    assert (plan.stopped, plan.best_g) == ("proved", plan.expected_g)


def test_runs_keep_yards_apart_and_are_compared_with_ones_own(room: HotRoomPage) -> None:
    codes = [row.code for row in room.rows]
    plan = ran(room, Runs(200_000, 2), ((codes[0], codes[1]), (codes[2], codes[3])))
    assert sorted(len(lot.sources) for lot in plan.lots) == [1, 1]
    assert plan.expected_g == 200_000
    assert plan.by_age_g == plan.own_g == 400_000
    assert plan.by_age_fits


def test_a_plan_is_held_against_oldest_first_on_its_own_terms(room: HotRoomPage) -> None:
    """In no more runs, and what waits too long goes no later than among its like."""
    first, *others = room.rows
    page = replace(
        room,
        rows=(replace(first, state="hold"), *(replace(row, state=TOO_LONG) for row in others)),
    )
    codes = [row.code for row in others]
    assert runs_as_by_age(page, 200_000, 1_800) == Runs(
        200_000, 2, 1_800, ((codes[0], 0), (codes[1], 0), (codes[2], 1))
    )
    assert runs_as_by_age(replace(room, rows=()), 200_000) == Runs(200_000, 1)


def test_ones_own_order_is_the_next_run_and_then_what_is_left(room: HotRoomPage) -> None:
    codes = [row.code for row in room.rows]
    own = with_the_rest(room, (codes[3], "G26-9999-9"), 200_000)
    assert own == ((codes[3],), (codes[0], codes[1]), (codes[2],))
    assert with_the_rest(room, (), 200_000) == ()
    assert ran(room, Runs(200_000, 3), own).own_g is not None


def test_what_cannot_be_planned_is_refused_in_words(drums: DrumsPage, room: HotRoomPage) -> None:
    page = replace(drums, rows=(drum("1", 300_000, "Mill Lane"), drum("2", 300_000, "Top Road")))
    said = {
        "No drum on hand may go into such a blend. Drums that are held, not weighed, not read or "
        "a customer's stay out: allow another moisture or colour, or see to those first.": (
            lambda: asked(page, Wanted(1, 2, darkest=100))
        ),
        "The drums that may go in hold 600.0 kg, less than the 700.0 kg asked for. "
        "Ask for less.": lambda: asked(page, Wanted(700_000, 800_000)),
        "From 800.0 kg to 700.0 kg runs backwards. Give the smaller one first.": (
            lambda: asked(page, Wanted(800_000, 700_000))
        ),
        "No choice of whole drums was found that is all that was asked. Allow a wider mass, or "
        "another moisture.": lambda: asked(page, Wanted(400_000, 500_000)),
        "No pallet waits that could go into a run: those held or too wet stay out.": (
            lambda: ran(replace(room, rows=()), Runs(1, 1))
        ),
        "The pallets that wait hold 400.0 kg, more than 1 runs of 300.0 kg. Plan more runs, or "
        "larger ones.": lambda: ran(room, Runs(300_000, 1)),
        "No cut into runs was found that is all that was asked. Plan one run more, or allow "
        "another moisture.": lambda: ran(room, Runs(90_000, 5)),
        f"Your order must name each pallet that waits once. Look at: {room.rows[3].code}.": (
            lambda: ran(room, Runs(400_000, 2), (tuple(row.code for row in room.rows[:3]),))
        ),
    }
    for sentence, do in said.items():
        with pytest.raises(Refusal) as refused:
            do()
        assert str(refused.value) == sentence


def test_a_blend_is_compared_with_the_drums_a_person_chose(drums: DrumsPage) -> None:
    rows = (
        drum("1", 300_000, "Mill Lane"),
        drum("2", 300_000, "Mill Lane"),
        drum("3", 300_000, "Willow Bank", "Top Road"),
        drum("4", 300_000, "Top Road", "Ash Hill"),
    )
    page, wanted = replace(drums, rows=rows), Wanted(600_000, 600_000)
    codes = {row.code[-1]: row.code for row in rows}

    def own_g(*own: str) -> int | None:
        return plan_blend(page, wanted, PLANNER, 10.0, lambda _best, _bound: True, own).own_g

    # Mill Lane 900, Top Road 900, Ash Hill 600 and Willow Bank 300 would come back.
    assert own_g(codes["1"], codes["4"]) == 675_000
    assert own_g() is None
    assert own_g(codes["1"], "D26-0999-X") is None
