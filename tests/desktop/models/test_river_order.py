"""Lots stand near what they flow into, so that few ribbons cross."""

from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
)
from honeyledger.desktop.models.river_order import ordered_columns


def _graph(columns: list[dict[str, int]], ribbons: list[tuple[str, str, int]]) -> RiverGraph:
    nodes = [
        RiverNode(key, "pull", key, mass_g, column=place)
        for place, column in enumerate(columns)
        for key, mass_g in column.items()
    ]
    return RiverGraph(
        tuple(RiverColumn(str(place)) for place in range(len(columns))),
        tuple(nodes),
        tuple(RiverRibbon(*one) for one in ribbons),
        sum(columns[0].values()),
    )


def _keys(graph: RiverGraph) -> list[list[str]]:
    return [[graph.nodes[place].key for place in column] for column in ordered_columns(graph)]


def _crossings(graph: RiverGraph) -> int:
    at = {key: place for column in _keys(graph) for place, key in enumerate(column)}
    ribbons = graph.ribbons
    return (
        sum(
            (at[one.source] - at[other.source]) * (at[one.target] - at[other.target]) < 0
            for one in ribbons
            for other in ribbons
        )
        // 2
    )


def test_ribbons_given_crosswise_are_laid_side_by_side() -> None:
    graph = _graph(
        [{"A": 10, "B": 10, "C": 10}, {"x": 10, "y": 10, "z": 10}],
        [("A", "z", 10), ("B", "x", 10), ("C", "y", 10)],
    )
    assert _crossings(graph) == 0


def test_a_small_thread_runs_along_the_foot() -> None:
    graph = _graph(
        [{"A": 1, "B": 500, "C": 499}, {"x": 1, "y": 999}],
        [("A", "x", 1), ("B", "y", 500), ("C", "y", 499)],
    )
    keys = _keys(graph)
    assert keys[0][-1] == "A"
    assert keys[1][-1] == "x"


def test_a_lot_with_no_ribbon_keeps_a_place() -> None:
    graph = _graph([{"A": 10, "B": 10}, {"x": 10}], [("A", "x", 10)])
    assert sorted(_keys(graph)[0]) == ["A", "B"]
