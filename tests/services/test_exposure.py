"""Exposure against networkx on the sample season and random ones, and by hand on a small house."""

from pathlib import Path

import networkx
import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.places import CUSTOMER, GATE, INSIDE, class_of, is_source
from honeyledger.services.exposure import Exposure, called_back, exposure
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse
from tests.support.sample import sample_house


def expected_by_networkx(view: View) -> tuple[dict[str, int], int]:
    """What comes back with each source, from the rows alone, and the mean of it."""
    here = {one.lot.id for one in view.on_hand()}
    for mark in view.marked("record", "vessel/"):
        here |= {row.lot.id for row in view.standing(mark.subject)}
    back = view.ancestry(sorted(here))
    lots = here | {edge.parent for edge in back}
    rows = [row for row in view.sources_of(sorted(lots)) if is_source(row.place) and row.grams < 0]
    graph = networkx.DiGraph()
    for row in view.sources_of(sorted(lots)):
        if is_source(row.place):
            graph.add_node(row.lot)
    graph.add_edges_from((edge.parent, edge.child) for edge in view.descent(sorted(graph.nodes)))
    graph.add_edges_from((edge.parent, edge.child) for edge in back)
    graph.add_nodes_from(here)
    mass: dict[int, int] = {}
    for row in view.holdings_of(sorted(graph.nodes)):
        if class_of(row.place) in (*INSIDE, CUSTOMER, GATE):
            mass[row.lot] = mass.get(row.lot, 0) + row.grams
    own: dict[str, set[int]] = {}
    for row in view.sources_of(sorted(graph.nodes)):
        if is_source(row.place) and row.grams < 0:
            own.setdefault(row.place, set()).add(row.lot)
    grams = {}
    for where in sorted({row.place for row in rows}):
        reached = set().union(*(networkx.descendants(graph, lot) | {lot} for lot in own[where]))
        grams[where] = sum(mass.get(lot, 0) for lot in reached)
    return grams, round(sum(grams.values()) / len(grams))


def test_the_sample_season_equals_networkx(tmp_path: Path) -> None:
    house = sample_house(tmp_path)
    with house.store.reading() as view:
        whole = exposure(view)
        grams, expected = expected_by_networkx(view)
    house.store.close()
    assert whole.expected_g == expected
    assert sorted(row.grams for row in whole.sources) == sorted(grams.values())
    assert [row.grams for row in whole.sources] == sorted(grams.values(), reverse=True)
    assert whole.heels
    assert whole.mixes
    assert all(tie.saves_g > 0 for tie in (*whole.heels, *whole.mixes))


def of(house: BuiltHouse) -> Exposure:
    return house.house.ask(exposure)


def two_yards(*, washed: bool) -> BuiltHouse:
    """100 kg of one yard through a tank into a drum, then 100 kg of another."""
    house = BuiltHouse()
    mill, bank, tank = house.yard("Mill Lane"), house.yard("Willow Bank"), house.vessel("Tank")
    house.load(mill, 100_000, tank)
    house.drum(tank, 100_000)
    house.wait(60)
    if washed:
        house.wash(tank)
        house.wait(60)
    house.load(bank, 100_000, tank)
    house.drum(tank, 100_000)
    return house


def test_a_heel_is_told_by_what_it_ties_and_a_wash_by_what_it_saves() -> None:
    whole = of(two_yards(washed=False))
    # Mill Lane comes back with both drums, Willow Bank with the second.
    assert whole.expected_g == 150_000
    assert [(tie.name, tie.sources, tie.saves_g) for tie in whole.heels] == [("Tank", 2, 50_000)]
    assert [(one.name, one.sources, one.fill_g) for one in whole.washes] == [("Tank", 2, 100_000)]
    assert whole.washes[0].saves_g == 100_000
    clean = of(two_yards(washed=True))
    assert clean.expected_g == 100_000
    assert clean.heels == ()


def test_an_empty_house_has_nothing_to_call_back() -> None:
    assert of(BuiltHouse()) == Exposure(0, (), (), (), ())


def test_what_goes_with_one_thing() -> None:
    house = two_yards(washed=False)
    mill = house.house.ask(lambda view: called_back(view, "Mill Lane"))
    bank = house.house.ask(lambda view: called_back(view, "Willow Bank"))
    assert (mill.grams, mill.here_g, mill.sent_g, mill.customers) == (200_000, 200_000, 0, 0)
    assert bank.grams == 100_000
    assert mill.lots > bank.lots
    with pytest.raises(Refusal) as refused:
        house.house.ask(lambda view: called_back(view, "Nowhere"))
    assert "Nowhere" in str(refused.value)
