"""Lots become columns, heels pass through, small lots fold, and no gram is lost on the way."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
    river_graph,
)

HEADS = {kind: RiverColumn(kind.title()) for kind in ("yard", "pull", "fill", "drum", "jar")}


def _graph(kinds: dict[str, str], edges: dict[tuple[str, str], int], *heels: str) -> RiverGraph:
    """A graph from kinds by key and grams by edge; `heels` are edges written "a>b"."""
    nodes = []
    for key, kind in kinds.items():
        out = sum(grams for (source, _), grams in edges.items() if source == key)
        into = sum(grams for (_, target), grams in edges.items() if target == key)
        nodes.append(RiverNode(key, kind, key, max(out, into), pfund_mm=40))
    ribbons = [
        RiverRibbon(source, target, grams, f"{source}>{target}" in heels)
        for (source, target), grams in edges.items()
    ]
    whole_g = max(node.mass_g for node in nodes)
    return river_graph(HEADS, nodes, ribbons, whole_g)


def _titles(graph: RiverGraph) -> list[str]:
    return [column.title for column in graph.columns]


def test_only_kinds_that_are_present_have_a_column() -> None:
    graph = _graph({"Y1": "yard", "S1": "pull", "J1": "jar"}, {("Y1", "S1"): 9, ("S1", "J1"): 9})
    assert _titles(graph) == ["Yard", "Pull", "Jar"]


def test_a_kind_that_comes_twice_has_two_columns() -> None:
    """A drum is drawn into the bottling tank, so a fill stands between drum and jar too."""
    graph = _graph(
        {"S1": "pull", "T1": "fill", "D1": "drum", "T2": "fill", "J1": "jar"},
        {("S1", "T1"): 9, ("T1", "D1"): 9, ("D1", "T2"): 9, ("T2", "J1"): 9},
    )
    assert _titles(graph) == ["Pull", "Fill", "Drum", "Fill", "Jar"]


def test_a_lot_that_skips_a_kind_still_stands_in_its_own_column() -> None:
    graph = _graph(
        {"Y1": "yard", "S1": "pull", "S2": "pull", "D1": "drum"},
        {("Y1", "S1"): 5, ("S1", "D1"): 5, ("S2", "D1"): 4},
    )
    assert graph.node("S2").column == graph.node("S1").column == 1


def test_a_kind_that_nothing_comes_after_stands_in_one_last_column() -> None:
    """Where honey is now: some from the first drums, some from jars much later."""
    heads = HEADS | {"end": RiverColumn("End")}
    nodes = [
        RiverNode(key, kind, key, 9)
        for key, kind in {
            "S1": "pull",
            "T1": "fill",
            "D1": "drum",
            "T2": "fill",
            "J1": "jar",
            "here": "end",
            "shop": "end",
        }.items()
    ]
    pairs = ("S1 T1", "T1 D1", "D1 T2", "T2 J1", "D1 here", "J1 shop")
    ribbons = [RiverRibbon(*pair.split(), 9) for pair in pairs]
    graph = river_graph(heads, nodes, ribbons, 9, ends="end")
    assert _titles(graph) == ["Pull", "Fill", "Drum", "Fill", "Jar", "End"]
    assert {node.key for node in graph.in_column(5)} == {"here", "shop"}


def test_a_heel_goes_on_from_its_own_fill_to_where_the_next_one_went() -> None:
    """Half of T2 was T1's heel, so half of each drum is, and only that half is hatched."""
    graph = _graph(
        {"S1": "pull", "S2": "pull", "T1": "fill", "T2": "fill", "D1": "drum", "D2": "drum"},
        {
            ("S1", "T1"): 100,
            ("T1", "T2"): 100,
            ("S2", "T2"): 100,
            ("T2", "D1"): 150,
            ("T2", "D2"): 50,
        },
        "T1>T2",
    )
    assert _titles(graph) == ["Pull", "Fill", "Drum"]
    found = {(one.source, one.target): (one.mass_g, one.heel) for one in graph.ribbons}
    assert found[("T1", "D1")] == (75, True)
    assert found[("T2", "D1")] == (75, False)
    assert found[("T1", "D2")] == (25, True)
    assert ("T1", "T2") not in found
    assert graph.node("T1").mass_g == graph.node("T2").mass_g == 100


def test_heels_of_heels_are_followed_to_the_first_fill() -> None:
    graph = _graph(
        {"S1": "pull", "S2": "pull", "T1": "fill", "T2": "fill", "T3": "fill", "D1": "drum"},
        {
            ("S1", "T1"): 40,
            ("T1", "T2"): 40,
            ("S2", "T2"): 40,
            ("T2", "T3"): 80,
            ("T3", "D1"): 80,
        },
        "T1>T2",
        "T2>T3",
    )
    found = {(one.source, one.target): one.mass_g for one in graph.ribbons}
    assert found[("T1", "D1")] == 40
    assert found[("T2", "D1")] == 40
    assert found[("T3", "D1")] == 0, "all of it came over from before"
    assert graph.node("T3").mass_g == 0
    assert graph.reach("T3") == {"S1", "S2", "T1", "T2", "T3", "D1"}


def test_a_chain_of_a_thousand_heels_is_no_deeper_than_the_stack() -> None:
    kinds = {f"T{number}": "fill" for number in range(1000)} | {"D1": "drum", "S1": "pull"}
    edges = {(f"T{number}", f"T{number + 1}"): 10 for number in range(999)}
    edges |= {("S1", "T0"): 10, ("T999", "D1"): 10}
    graph = _graph(kinds, edges, *(f"T{number}>T{number + 1}" for number in range(999)))
    into = [one for one in graph.ribbons if one.target == "D1" and one.mass_g]
    assert [(one.source, one.mass_g, one.heel) for one in into] == [("T0", 10, True)]


def test_a_circle_of_reach_only_is_survived() -> None:
    graph = _graph(
        {"T1": "fill", "J1": "jar"},
        {("T1", "J1"): 10, ("J1", "T1"): 0},
    )
    assert [(one.source, one.target) for one in graph.ribbons] == [("T1", "J1")]


def test_amounts_are_put_in_words_of_the_traced_mass() -> None:
    graph = _graph({"S1": "pull", "D1": "drum"}, {("S1", "D1"): 1_284_500})
    assert graph.node("S1").mass == "1\u202f284.5 kg"
    assert graph.node("S1").share == "100.0 %"
    jar = _graph({"S1": "pull", "J1": "jar"}, {("S1", "J1"): 306})
    assert jar.node("S1").mass == "306 g"


def test_a_ribbon_that_runs_back_is_a_mistake_of_ours() -> None:
    nodes = (RiverNode("A", "pull", "A", 1, column=1), RiverNode("B", "drum", "B", 1, column=0))
    with pytest.raises(ValueError, match="runs back"):
        RiverGraph((RiverColumn("x"),) * 2, nodes, (RiverRibbon("A", "B", 1),), 1)


def test_the_reach_of_a_lot_is_its_ancestors_and_descendants_only() -> None:
    graph = _graph(
        {"Y1": "yard", "Y2": "yard", "S1": "pull", "S2": "pull", "D1": "drum", "D2": "drum"},
        {("Y1", "S1"): 5, ("Y2", "S2"): 5, ("S1", "D1"): 5, ("S2", "D2"): 5},
    )
    assert graph.reach("S1") == {"Y1", "S1", "D1"}


@settings(max_examples=60)
@given(st.data())
def test_passing_heels_on_loses_no_gram(data: st.DataObject) -> None:
    """Whatever the heels, as much goes into each drum, and each fill gives what it had."""
    count = data.draw(st.integers(2, 5))
    grams = st.integers(1, 10_000)
    kinds = {f"S{n}": "pull" for n in range(count)} | {f"T{n}": "fill" for n in range(count)}
    kinds |= {f"D{n}": "drum" for n in range(count)}
    edges: dict[tuple[str, str], int] = {}
    held = 0
    for n in range(count):
        came = data.draw(grams)
        edges[(f"S{n}", f"T{n}")] = came
        held += came
        drawn = data.draw(st.integers(1, held))
        edges[(f"T{n}", f"D{n}")] = drawn
        held -= drawn
        if n < count - 1 and held:
            edges[(f"T{n}", f"T{n + 1}")] = held
    heels = [f"{a}>{b}" for a, b in edges if a[0] == b[0] == "T"]
    graph = _graph(kinds, edges, *heels)
    for n in range(count):
        into = sum(one.mass_g for one in graph.ribbons if one.target == f"D{n}")
        assert into == edges[(f"T{n}", f"D{n}")]
    passed = {key for heel in heels for key in heel.split(">")}
    for node in graph.nodes:
        if node.key in passed:
            out = sum(one.mass_g for one in graph.ribbons if one.source == node.key)
            assert node.mass_g == out


def test_a_traced_fill_keeps_its_mass_and_its_heel_runs_into_it() -> None:
    heads = {"pull": RiverColumn("Pulls"), "fill": RiverColumn("Tank fills")}
    nodes = [
        RiverNode("S1", "pull", "S1", 10),
        RiverNode("S2", "pull", "S2", 90),
        RiverNode("T1", "fill", "T1", 10),
        RiverNode("T2", "fill", "T2", 100),
    ]
    ribbons = [
        RiverRibbon("S1", "T1", 10),
        RiverRibbon("S2", "T2", 90),
        RiverRibbon("T1", "T2", 10, heel=True),
    ]
    made = river_graph(heads, nodes, ribbons, 100)
    assert made.node("T2").mass_g == 100
    assert made.node("T1").column < made.node("T2").column
    assert RiverRibbon("T1", "T2", 10, heel=True) in made.ribbons


def test_a_traced_fill_that_is_in_reach_of_itself_keeps_its_mass() -> None:
    """Jars of it were scraped back in the hour it was drawn: a circle at 0 g."""
    kinds = {"S1": "pull", "T1": "fill", "T2": "fill", "J1": "jar"}
    edges = {("S1", "T1"): 100, ("T1", "T2"): 100, ("T2", "J1"): 0, ("J1", "T2"): 0}
    heads = {kind: RiverColumn(kind) for kind in ("pull", "fill", "jar")}
    masses = {"S1": 100, "T1": 100, "T2": 100, "J1": 0}
    nodes = [RiverNode(key, kind, key, masses[key]) for key, kind in kinds.items()]
    ribbons = [
        RiverRibbon(source, target, mass_g, heel=(source, target) == ("T1", "T2"))
        for (source, target), mass_g in edges.items()
    ]
    made = river_graph(heads, nodes, ribbons, 100)
    assert made.node("T2").mass_g == 100
    assert RiverRibbon("T1", "T2", 100, heel=True) in made.ribbons


def test_threads_make_no_column_of_their_own_and_are_walked_all_the_same() -> None:
    """A splash of the second fill went back into the first tank's next one: no column for that."""
    kinds = {"S1": "pull", "T1": "fill", "D1": "drum", "S2": "pull", "T2": "fill", "D2": "drum"}
    pairs = [("S1", "T1", 990), ("T1", "D1", 990), ("S2", "T2", 990), ("T2", "D2", 990)]
    pairs += [("D1", "T2", 3)]
    nodes = [RiverNode(key, kind, key, 990) for key, kind in kinds.items()]
    ribbons = [RiverRibbon(*one) for one in pairs]
    every = river_graph(HEADS, nodes, ribbons, 1000)
    assert _titles(every) == ["Pull", "Fill", "Drum", "Fill", "Drum"]
    made = river_graph(HEADS, nodes, ribbons, 1000, thin_part=200)
    assert _titles(made) == ["Pull", "Fill", "Drum"]
    assert made.undrawn == (RiverRibbon("D1", "T2", 3),)
    assert made.reach("T2") == {"S1", "T1", "D1", "S2", "T2", "D2"}


def test_a_lot_of_threads_alone_stands_before_what_it_went_into() -> None:
    kinds = {"S1": "pull", "D1": "drum", "T1": "fill", "D2": "drum", "T2": "fill", "D3": "drum"}
    pairs = [("S1", "D1", 900), ("D1", "T1", 900), ("T1", "D2", 900), ("T2", "D2", 1)]
    nodes = [RiverNode(key, kind, key, 1 if key == "T2" else 900) for key, kind in kinds.items()]
    ribbons = [RiverRibbon(*one) for one in pairs]
    made = river_graph(HEADS, nodes, ribbons, 900, thin_part=200)
    assert made.node("T2").column == made.node("T1").column
    assert made.undrawn == ()
