"""Shares and ways over origin rows alone, against fractions and against reach done plainly."""

from collections.abc import Iterable
from fractions import Fraction

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.ledger.state import Edge
from honeyledger.ledger.trace import (
    AMENDED,
    DIRECT,
    GRAMS,
    HEEL,
    LATE,
    MARGIN,
    TOLD,
    Start,
    carry_back,
    carry_forward,
    told,
    ways_back,
)

# Three drums through a heel: pulls A, B, C, E are 1, 2, 5, 8; tank fills 3, 6, 9; drums 4, 7, 10.
_MADE_KG = (40, 160, 200, 150, 100, 150, 150, 80, 80, 80)
MADE_G = {lot: made_kg * 1000 for lot, made_kg in enumerate(_MADE_KG, 1)}
ROWS = (
    *((3, 1, 40_000), (3, 2, 160_000), (4, 3, 150_000)),
    *((6, 3, 50_000), (6, 5, 100_000), (7, 6, 150_000)),
    *((9, 6, 0), (9, 8, 80_000), (10, 9, 80_000)),
)
VESSELS = {3: "tank", 6: "tank", 9: "tank"}


def _edges(
    rows: Iterable[tuple[int, int, int]], late: Iterable[tuple[int, int]] = ()
) -> list[Edge]:
    """Rows as a view gives them: newest child first; each late row has an entry of its own."""
    edges = [Edge(*row, 0, 1, line) for line, row in enumerate(rows, 1)]
    edges += [Edge(child, parent, 0, 1, 100 + at, 1) for at, (child, parent) in enumerate(late)]
    return sorted(edges, key=lambda edge: -edge.child)


def _behind(lot: int, edges: Iterable[Edge]) -> list[Edge]:
    """The rows in the reach of a lot."""
    graph = nx.DiGraph()
    graph.add_node(lot)
    graph.add_edges_from((edge.child, edge.parent) for edge in edges)
    reached = {lot, *nx.descendants(graph, lot)}
    return [edge for edge in edges if edge.child in reached]


def test_shares_of_three_drums_through_a_heel() -> None:
    drums = {
        4: {1: Fraction(1, 5), 2: Fraction(4, 5)},
        7: {1: Fraction(1, 15), 2: Fraction(4, 15), 5: Fraction(2, 3)},
        10: {1: 0, 2: 0, 5: 0, 8: 1},
    }
    for drum, pulls in drums.items():
        shares = carry_back({drum: Start(1.0)}, _behind(drum, _edges(ROWS)), MADE_G)
        assert shares[drum] == 1
        for pull, share in pulls.items():
            assert shares[pull] == pytest.approx(float(share), abs=1e-15)


def test_a_lot_without_origins_is_all_there_is_to_its_trace() -> None:
    assert carry_back({1: Start(1.0)}, [], MADE_G) == {1: 1.0}
    assert carry_forward({1: 1.0}, [], MADE_G) == {1: 1.0}


def test_a_row_that_is_missing_shows_in_the_shares() -> None:
    cut = [edge for edge in _behind(4, _edges(ROWS)) if edge.parent != 1]
    shares = carry_back({4: Start(1.0)}, cut, MADE_G)
    assert shares[2] == pytest.approx(0.8)


def test_the_part_forward_is_the_share_back() -> None:
    forward = sorted(_edges(ROWS), key=lambda edge: edge.parent)
    for pull in (1, 2, 5, 8):
        parts = carry_forward({pull: 1.0}, forward, MADE_G)
        for drum in (4, 7, 10):
            back = carry_back({drum: Start(1.0)}, _behind(drum, _edges(ROWS)), MADE_G)
            assert parts.get(drum, 0.0) == pytest.approx(back.get(pull, 0.0), abs=1e-15)


def _ways(
    starts: dict[int, Start], edges: list[Edge], late: dict[int, int] | None = None
) -> dict[int, int]:
    return ways_back(starts, edges, VESSELS, late or {})


def test_what_came_over_a_heel_is_in_through_it_alone() -> None:
    ways = _ways({7: Start(1.0)}, _behind(7, _edges(ROWS)))
    assert told(ways[5]) == ("grams",)
    assert ways[5] & DIRECT
    for pull in (1, 2):
        assert told(ways[pull]) == ("heel",)
        assert not ways[pull] & DIRECT


def test_a_lot_in_by_none_of_the_ways_has_no_flag_of_them() -> None:
    ways = _ways({4: Start(1.0)}, _edges([(4, 3, 150_000), (4, 2, 0), (3, 1, 200_000)]))
    assert not ways[2] & TOLD
    assert ways[2] & DIRECT


def test_each_late_row_says_why_and_all_behind_it_is_in_by_that() -> None:
    edges = _edges([(3, 1, 200_000), (6, 5, 150_000)], late=[(3, 6)])
    for way, word in ((MARGIN, "margin"), (LATE, "late"), (AMENDED, "amended")):
        ways = _ways({3: Start(1.0)}, edges, {100: way})
        assert told(ways[1]) == ("grams",)
        # Lot 6 is newer than lot 3, and what lies behind it is older: no order serves both.
        assert set(told(ways[5])) - {"heel"} == {word}


def test_rows_that_close_a_circle_end() -> None:
    edges = _edges([(6, 3, 150_000), (3, 1, 200_000)], late=[(3, 6)])
    ways = _ways({3: Start(1.0)}, edges, {100: LATE})
    assert {"grams", "late"} <= set(told(ways[1]))
    assert "late" in told(ways[3])
    assert carry_back({3: Start(1.0)}, edges, MADE_G) == pytest.approx({3: 1, 6: 0, 1: 1})


def test_a_jars_fill_within_the_margin_says_so() -> None:
    starts = {3: Start(0.5), 6: Start(0.5, by_margin=True)}
    ways = _ways(starts, _behind(6, _edges(ROWS)))
    assert told(ways[3]) == ("grams", "heel", "margin")
    assert told(ways[5]) == ("margin",)
    assert told(ways[6]) == ("margin",)


# Any house at all: lots 1 to 12, some of them tank fills of two vessels, rows with grams from
# newer to older, rows of 0 g and late rows either way.
_LOTS = st.integers(1, 12)
_PAIRS = st.lists(st.tuples(_LOTS, _LOTS).filter(lambda pair: pair[0] != pair[1]), max_size=12)


@st.composite
def _houses(draw: st.DrawFn) -> tuple[list[Edge], dict[int, str], dict[int, int]]:
    grams = draw(st.lists(st.tuples(_LOTS, _LOTS, st.integers(0, 9)), max_size=25))
    rows = {(max(a, b), min(a, b)): (max(a, b), min(a, b), g) for a, b, g in grams if a != b}
    edges = _edges(rows.values(), late=draw(_PAIRS))
    vessels = draw(st.dictionaries(_LOTS, st.sampled_from(["tank", "sump"]), max_size=8))
    late_ways = {
        edge.entry: draw(st.sampled_from([MARGIN, LATE, AMENDED])) for edge in edges if edge.late
    }
    return edges, vessels, late_ways


def _reach(starts: Iterable[int], edges: Iterable[Edge]) -> set[int]:
    graph = nx.DiGraph()
    graph.add_edges_from((edge.child, edge.parent) for edge in edges)
    starts = set(starts)
    return starts.union(*(nx.descendants(graph, lot) for lot in starts if lot in graph))


@given(_houses(), st.sets(_LOTS, min_size=1, max_size=3), st.sets(_LOTS, max_size=2))
def test_ways_are_reach_over_the_rows_of_each_way(
    house: tuple[list[Edge], dict[int, str], dict[int, int]], exact: set[int], near: set[int]
) -> None:
    every, vessels, late_ways = house
    near = near - exact
    starts = exact | near
    edges = [edge for edge in every if edge.child in _reach(starts, every)]
    found = ways_back(
        {lot: Start(1.0, by_margin=lot in near) for lot in starts}, edges, vessels, late_ways
    )
    heels = [
        edge
        for edge in edges
        if edge.child in vessels and vessels[edge.child] == vessels.get(edge.parent)
    ]
    direct = [edge for edge in edges if edge not in heels]
    timely = [edge for edge in edges if not edge.late]
    in_time = _reach(starts, timely)
    wanted = {
        GRAMS: _reach(exact, [edge for edge in direct if edge.grams]),
        HEEL: _reach([edge.parent for edge in heels if edge.child in in_time], timely),
        DIRECT: _reach(starts, direct),
    }
    for way in (MARGIN, LATE, AMENDED):
        ends = {edge.parent for edge in edges if edge.late and late_ways[edge.entry] == way}
        wanted[way] = _reach(ends | near if way == MARGIN else ends, edges)
    assert set(found) == _reach(starts, edges)
    for way, lots in wanted.items():
        assert {lot for lot, ways in found.items() if ways & way} == lots, way


@given(_houses(), _LOTS)
def test_shares_are_the_exact_fractions(
    house: tuple[list[Edge], dict[int, str], dict[int, int]], traced: int
) -> None:
    every, _, _ = house
    edges = [edge for edge in every if edge.child in _reach([traced], every)]
    made_g = {
        lot: max(1, sum(edge.grams for edge in every if edge.child == lot)) for lot in range(1, 13)
    }
    exact = dict.fromkeys(range(1, 13), Fraction(0))
    exact[traced] = Fraction(1)
    for lot in range(12, 0, -1):
        for edge in edges:
            if edge.child == lot:
                exact[edge.parent] += exact[lot] * edge.grams / made_g[lot]
    shares = carry_back({traced: Start(1.0)}, edges, made_g)
    assert set(shares) == _reach([traced], edges)
    for lot, share in shares.items():
        assert share == pytest.approx(float(exact[lot]), abs=1e-12)


def test_the_words_stand_in_their_order() -> None:
    assert told(GRAMS | HEEL | MARGIN | LATE | AMENDED) == (
        *("grams", "heel", "margin", "late", "amended"),
    )
    assert told(DIRECT) == ()
