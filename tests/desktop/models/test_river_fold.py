"""Small lots fold into a band, which keeps their grams and can be opened."""

from honeyledger.desktop.models.river_fold import FOLD, folded
from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
    river_graph,
)

HEADS = {kind: RiverColumn(kind.title()) for kind in ("pull", "drum")}


def _many(count: int, *, named: int = -1) -> RiverGraph:
    nodes = [
        RiverNode(f"S{n}", "pull", f"S{n}", n + 1, pfund_mm=30, is_named=n == named)
        for n in range(count)
    ]
    total = sum(node.mass_g for node in nodes)
    nodes.append(RiverNode("D1", "drum", "D1", total, pfund_mm=40))
    ribbons = [RiverRibbon(f"S{n}", "D1", n + 1) for n in range(count)]
    return river_graph(HEADS, nodes, ribbons, total)


def test_the_small_lots_of_a_full_column_become_one_band() -> None:
    graph = folded(_many(1000), 12)
    pulls = graph.in_column(0)
    assert len(pulls) == 12
    band = next(node for node in pulls if node.key == f"{FOLD}0")
    assert band.folded == 989
    assert band.label == "989 small ones"
    assert sum(node.mass_g for node in pulls) == sum(range(1, 1001))
    into = [one for one in graph.ribbons if one.target == "D1"]
    assert len(into) == 12
    assert sum(one.mass_g for one in into) == sum(range(1, 1001))
    assert {node.key for node in pulls} >= {"S999", "S998"}, "the largest stay"


def test_a_lot_the_answer_names_is_never_folded() -> None:
    graph = folded(_many(1000, named=0), 12)
    assert "S0" in {node.key for node in graph.nodes}


def test_an_opened_band_and_a_short_column_stay_as_they_are() -> None:
    graph = _many(1000)
    assert folded(graph, 12, opened=[0]) is graph
    assert folded(_many(12), 12) == _many(12)


def test_a_band_needs_two_and_never_takes_what_is_named() -> None:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    pulls = [RiverNode(f"S{n}", "pull", f"S{n}", 100, is_named=n < 9) for n in range(10)]
    drum = RiverNode("D", "drum", "D", 1000)
    ribbons = [RiverRibbon(node.key, "D", 100) for node in pulls]
    made = river_graph(heads, [*pulls, drum], ribbons, 1000)
    assert folded(made, 8) == made, "one alone is no band, and nine are named"


def test_threads_fold_however_few_they_are() -> None:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    masses = (900, 96, 2, 1, 1)
    pulls = [RiverNode(f"S{n}", "pull", f"S{n}", mass) for n, mass in enumerate(masses)]
    ribbons = [RiverRibbon(node.key, "D", node.mass_g) for node in pulls]
    made = river_graph(heads, [*pulls, RiverNode("D", "drum", "D", 1000)], ribbons, 1000)
    band = folded(made, 8, thin_g=5).node("fold:0")
    assert (band.folded, band.mass_g) == (3, 4)
    assert folded(made, 8, opened=(0,), thin_g=5) == made


def test_where_threads_are_the_honey_the_largest_of_them_stay() -> None:
    made = folded(_many(1000), 12, thin_g=100_000)
    assert len(made.in_column(0)) == 12
    assert "S999" in {node.key for node in made.nodes}
