"""Which run an entry is of where nobody said it, and how one is put in that was left out."""

import pytest

from honeyledger.ledger.run_balance import RunBalance, balance_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.corrections import Amend, Reverse, chain_of
from honeyledger.ledger.verbs.drums import Fill, Skim
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Load, OpenRun, WetOut
from honeyledger.ledger.verbs.owners import Pool
from tests.support.books import refusal_of, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A line that feeds a tank, another beside it, and a tank that neither feeds."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line", sort="line")
    house.vessel("Tank", fed_by="Line")
    house.vessel("Line B", sort="line")
    house.vessel("Bottling tank")
    return house


def opened(house: BuiltHouse, line: str = "Line", tank: str = "") -> str:
    return house.do(OpenRun(line, tank)).entries[0].act.run


def balance(house: BuiltHouse, run: str) -> RunBalance:
    return house.house.ask(lambda view: balance_of(view, run))


def taken(run: str) -> tuple[str, ...]:
    return (
        f"Nobody named a run: it is in {run}, the one that is open here. If it is of no run, "
        "reverse it and say none.",
    )


def test_what_nobody_named_a_run_for_is_in_the_one_that_is_open(house: BuiltHouse) -> None:
    run = opened(house)
    pull, tag = house.pull("Creek", 148_000)
    done = [
        house.do(Load(tag, "Line")),
        house.do(WetOut(10, 70_000, pull=pull)),
        house.do(Cappings("Line", 8_000)),
        house.do(Skim("Tank", 2_000)),
        house.do(Fill("Tank", Weight(net_g=60_000), into="Bottling tank")),
        house.do(Fill("Tank", Weight(net_g=70_000))),
    ]
    assert {one.entries[0].act.run for one in done} == {run}
    assert [one.notes for one in done[:2]] == [taken(run)] * 2
    figures = balance(house, run)
    assert (figures.in_g, figures.supers, figures.wet_out_supers) == (148_000, 10, 10)
    assert [row.grams for row in figures.drums] == [70_000]
    assert (figures.skimmed_g, [row.grams for row in figures.barrels]) == (2_000, [8_000])


def test_honey_that_is_poured_or_blended_into_its_tank_is_in_the_run(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Bottling tank")
    drum = house.drum("Bottling tank", 40_000)
    run = opened(house)
    house.pour(drum, "Tank", 20_000)
    house.do(Blend("Tank", (Portion(drum, Weight(net_g=20_000)),), "blend"))
    assert balance(house, run).poured_in_g == 40_000


def test_what_is_said_to_be_in_no_run_is_in_none(house: BuiltHouse) -> None:
    run = opened(house)
    _, tag = house.pull("Creek", 148_000)
    done = house.do(Load(tag, "Line"), run="none")
    assert (done.entries[0].act.run, done.notes) == ("", ())
    assert house.do(WetOut(10), run="none").entries[0].act.run == ""
    assert balance(house, run).in_g == 0


def test_other_vessels_and_other_times_are_in_no_run(house: BuiltHouse) -> None:
    house.load("Creek", 148_000, "Line", at_min=10)
    run = opened(house)
    _, tag = house.pull("Creek", 148_000)
    done = [
        house.do(Load(tag, "Line B")),
        house.do(Fill("Line B", Weight(net_g=60_000))),
        house.do(Fill("Tank", Weight(net_g=60_000)), at_min=10),
        house.do(WetOut(10, pull=house.pull("Creek", 50_000)[0])),
    ]
    assert {one.entries[0].act.run for one in done} == {""}
    house.do(CloseRun(run))
    assert house.do(Fill("Tank", Weight(net_g=10_000))).entries[0].act.run == ""


def test_with_several_open_somebody_has_to_say_which(house: BuiltHouse) -> None:
    first, second = opened(house), opened(house, "Line B", tank="Tank")
    house.load("Creek", 148_000, "Line")
    said = f"More than one run is open here: {first}, {second}. Say which it is of, or none."
    assert turned_down(house, Fill("Tank", Weight(net_g=60_000))) == said
    assert turned_down(house, WetOut(10)) == said
    refusal = refusal_of(house, Skim("Tank", 1_000))
    assert (refusal.field, refusal.offers) == ("run", (first, second))
    done = house.do(Fill("Tank", Weight(net_g=60_000)), run=second)
    assert done.entries[0].act.run == second
    drum = Portion(done.codes[-1], Weight(net_g=20_000))
    assert house.do(Blend("Tank", (drum,), "blend")).entries[0].act.run == ""


def test_closing_a_run_names_what_its_vessels_had_outside_it(house: BuiltHouse) -> None:
    """The run was opened in the books only when half of it was done: its heel is as it was."""
    house.load("Creek", 12_000, "Line")
    house.wait(5)
    start = house.now_min
    _, tag = house.pull("Creek", 148_000)
    forgotten = [
        house.do(Load(tag, "Line")),
        house.do(Fill("Tank", Weight(net_g=60_000))),
        house.do(Skim("Tank", 2_000)),
        house.do(WetOut(10, 70_000)),
    ]
    house.load("Creek", 9_000, "Bottling tank")
    house.do(Skim("Bottling tank", 1_000))
    house.drum("Bottling tank", 8_000)
    run = house.do(OpenRun("Line"), at_min=start).entries[0].act.run
    house.drum("Tank", 70_000)
    numbers = ", ".join(str(done.entries[0].id) for done in forgotten)
    said = (
        f"Not in {run}, though its vessels had them while it was open: entry {numbers}. "
        "Amend each that is of this run."
    )
    assert house.do(CloseRun(run)).notes == (said,)
    for done in forgotten:
        house.do(Amend(entry=done.entries[0].id, run=run, reason="the run was opened late"))
    figures = balance(house, run)
    assert (figures.skimmed_g, figures.wet_out_supers) == (2_000, 10)
    assert (figures.heel_in_g, figures.in_g) == (12_000, 160_000)


def test_closing_a_run_does_not_name_what_is_in_none_on_purpose(house: BuiltHouse) -> None:
    run = opened(house)
    _, tag = house.pull("Creek", 148_000)
    house.do(Load(tag, "Line"), run="none")
    house.do(Fill("Tank", Weight(net_g=60_000)), run="none")
    house.do(Skim("Tank", 2_000), run="none")
    house.do(WetOut(10, 70_000), run="none")
    assert house.do(CloseRun(run)).notes == ()
    assert balance(house, run).in_g == 0


def test_what_a_run_was_open_for_and_is_typed_after_it_was_signed_is_told(
    house: BuiltHouse,
) -> None:
    run = opened(house)
    _, tag = house.pull("Creek", 148_000)
    at_min = house.now_min
    house.do(CloseRun(run))
    empties = house.do(WetOut(10, 70_000), at_min=at_min)
    assert empties.notes[0].startswith(f"{run} was open here then, and is signed by now")
    done = house.do(Load(tag, "Line"), at_min=at_min)
    entry = done.entries[0]
    assert entry.act.run == ""
    said = (
        f"{run} was open here then, and is signed by now: this is in none. If it is of that run, "
        f"amend entry {entry.id} into it."
    )
    assert done.notes == (said,)
    house.do(Amend(entry=entry.id, run=run, reason="typed from paper"))
    assert balance(house, run).in_g == 148_000
    _, second = house.pull("Creek", 148_000)
    assert house.do(Load(second, "Line")).notes == ()  # it is later than the run
    _, third = house.pull("Creek", 148_000)
    assert said not in house.do(Load(third, "Line"), at_min=at_min, run="none").notes


def test_an_entry_is_put_into_a_run_that_is_signed(house: BuiltHouse) -> None:
    run = opened(house)
    _, tag = house.pull("Creek", 148_000)
    load = house.do(Load(tag, "Line"), run="none").entries[0].id
    fill = house.do(Fill("Tank", Weight(net_g=60_000)), run="none").entries[0].id
    house.do(CloseRun(run))
    for entry in (load, fill):
        done = house.do(Amend(entry=entry, run=run, reason="typed without"))
    figures = balance(house, run)
    assert (figures.in_g, figures.out_g) == (148_000, 60_000)
    assert turned_down(house, Amend(entry=fill, run=run, reason="again")) == (
        f"Entry {fill} is in {run} already. Reverse what put it there, and record it again."
    )
    house.do(Reverse(done.entries[0].id, "it was not"))
    assert balance(house, run).out_g == 0


def test_what_cannot_be_put_into_a_run(house: BuiltHouse) -> None:
    run = opened(house)
    pull, tag = house.pull("Creek", 148_000)
    load = house.do(Load(tag, "Line"), run="none").entries[0].id
    other = house.do(Pool("agreed", run)).entries[0].id
    assert turned_down(house, Amend(entry=other, run=run, reason="so")) == (
        f"Entry {other} is not one that counts in a run. Name a load, a draw or cappings that "
        "stand."
    )
    assert turned_down(house, Amend(entry=load, reason="so")) == (
        "That is not a run of this house. Open a run first."
    )
    assert turned_down(house, Amend(entry=load, lot=pull, yard="Creek", reason="so")) == (
        "The yard and the run of an entry are put right apart: amend one of them, and then the "
        "other."
    )


def test_an_entry_that_was_put_in_and_is_reversed_counts_no_more(house: BuiltHouse) -> None:
    run = opened(house)
    _, tag = house.pull("Creek", 148_000)
    load = house.do(Load(tag, "Line"), run="none").entries[0].id
    house.do(Amend(entry=load, run=run, reason="typed without"))
    house.do(Reverse(load, "never happened"))
    assert balance(house, run).in_g == 0


def test_the_opening_of_a_run_has_what_was_put_into_it_behind_it(house: BuiltHouse) -> None:
    opening = house.do(OpenRun("Line")).entries[0]
    _, tag = house.pull("Creek", 148_000)
    load = house.do(Load(tag, "Line"), run="none").entries[0].id
    put = house.do(Amend(entry=load, run=opening.act.run, reason="typed without")).entries[0].id
    assert house.house.ask(lambda view: chain_of(view, opening.id)) == [put, opening.id]


def test_a_run_opened_while_another_is_open_there_is_told_of(house: BuiltHouse) -> None:
    run = opened(house)
    opened(house, "Line B")
    done = house.do(OpenRun("Line"))
    assert done.notes == (
        f"{run} is still open here: close it, or say of every entry which run it is of.",
    )
    house.do(CloseRun(run))
    house.do(CloseRun(done.entries[0].act.run))
    assert house.do(OpenRun("Line")).notes == ()
