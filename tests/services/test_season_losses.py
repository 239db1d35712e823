"""Losses between the weighed points of a run: each part to the gram, and as a share."""

from datetime import date

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Discard
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Skim
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, WetOut
from honeyledger.services.season_books import season_books
from honeyledger.services.season_losses import Losses, RunLoss, last_of, losses, share_of
from tests.support.books import code_in, place
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash")
    made.vessel("Line")
    made.vessel("Tank", fed_by="Line")
    for name in "123":
        made.container(name)
    return made


def _losses(house: BuiltHouse, season: int = 2026) -> Losses:
    return house.house.ask(lambda view: losses(season_books(view, season, house.now_ms)))


def _run(house: BuiltHouse, *, wet: int = 20) -> str:
    """20 supers with 300 kg go in; 200 and 40 kg drums, 30 kg cappings, 4 kg foam, 6 kg away."""
    run = code_in(house.do(OpenRun("Line", tank="Tank")), "R")
    _, tag = house.pull("Ash", 300_000, count=20)
    house.do(Load(tag, "Line"), run=run)
    house.do(Fill("Tank", Weight(net_g=200_000), container="1"), run=run)
    house.do(Cappings("Line", 30_000), run=run)
    house.do(Skim("Tank", 4_000), run=run)
    # Twenty boxes weigh 120 kg empty, and 130 kg with what clings to them.
    house.do(WetOut(wet, gross_g=150_000, tare_g=20_000), run=run)
    house.do(Fill("Tank", Weight(net_g=40_000), container="2"), run=run)
    return run


def test_each_part_of_a_closed_run(house: BuiltHouse) -> None:
    run = _run(house)
    house.do(CloseRun(run, heels=(Heel("Tank", 5_000),)))
    assert _losses(house).runs == (
        RunLoss(
            code=run,
            line="Line",
            day=date(2026, 7, 24),
            is_open=False,
            supers=20,
            in_g=300_000,
            drums_g=240_000,
            cappings_g=30_000,
            cappings_to_follow=False,
            foam_g=4_000,
            spilled_g=0,
            wet_g=10_000,
            dried_g=0,
            # 300 in; 240, 30, 4 and a heel of 5 out; 10 in the wet supers.
            difference_g=11_000,
        ),
    )
    (row,) = _losses(house).closed
    assert row.share(row.difference_g) == 367
    assert row.share(row.wet_g or 0) == 333
    assert _losses(house).total("wet_g") == 10_000


def test_wet_supers_that_were_not_all_weighed_say_nothing(house: BuiltHouse) -> None:
    run = _run(house, wet=19)
    house.do(CloseRun(run, cappings_pending=True))
    (row,) = _losses(house).runs
    assert row.wet_g is None
    assert row.cappings_to_follow
    assert row.difference_g == 300_000 - 240_000 - 30_000 - 4_000


def test_honey_of_a_vessel_that_was_thrown_away_is_spilled(house: BuiltHouse) -> None:
    run = _run(house)
    tank = place(house, "Tank")
    fill = house.house.ask(lambda view: view.standing(tank))[0].lot
    house.do(Discard(fill.code, "on the floor", net_g=6_000), run=run)
    house.do(CloseRun(run))
    (row,) = _losses(house).runs
    assert row.spilled_g == 6_000
    assert row.difference_g == 300_000 - 240_000 - 30_000 - 4_000 - 10_000 - 6_000


def test_an_open_run_is_there_and_in_no_total(house: BuiltHouse) -> None:
    _run(house)
    found = _losses(house)
    assert [row.is_open for row in found.runs] == [True]
    assert found.closed == ()
    assert found.total("foam_g") == 0
    assert _losses(house, 2025).runs == ()


def test_shares_are_rounded_to_the_nearest_and_nothing_has_none() -> None:
    assert share_of(1, 3) == 3_333
    assert share_of(2, 3) == 6_667
    assert share_of(-1, 3) == -3_333
    assert share_of(5, 0) is None


def test_an_empty_season_has_no_runs(house: BuiltHouse) -> None:
    house.do(Receive((Line("Ash", 3),)))
    assert _losses(house) == Losses(())


def test_the_last_closed_runs_of_a_season_alone(house: BuiltHouse) -> None:
    first = _run(house)
    tank = place(house, "Tank")
    fill = house.house.ask(lambda view: view.standing(tank))[0].lot
    house.do(Discard(fill.code, "on the floor", net_g=6_000), run=first)
    house.do(CloseRun(first))
    whole = _losses(house).closed
    assert house.house.ask(lambda view: last_of(view, 2026, "UTC", 20)) == whole
    assert whole[0].spilled_g == 6_000
    house.do(OpenRun("Line", tank="Tank"))
    assert house.house.ask(lambda view: last_of(view, 2026, "UTC", 20)) == whole
    assert house.house.ask(lambda view: last_of(view, 2025, "UTC", 20)) == ()
