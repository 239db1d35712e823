"""A river has one scale that is stated, and spine and ribbon agree with the figures."""

import itertools

import pytest

from honeyledger.desktop.models.river_fold import folded
from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverNode,
    RiverRibbon,
    river_graph,
)
from honeyledger.desktop.models.river_layout import (
    FOOT,
    GAP,
    LEAST,
    RiverGeometry,
    Scale,
    folded_to,
    lay_out_river,
    most_in_column,
    simple_scale,
)
from honeyledger.desktop.models.river_plates import HEAD, SPINE
from tests.desktop.gallery_trace import graph

SIZES = ((1392.0, 248.0), (1232.0, 200.0), (1856.0, 420.0), (820.0, 248.0))


def _measure(line: str) -> float:
    return 10.0 * len(line)


def _columns(made: RiverGeometry) -> list[list[tuple[float, float]]]:
    return [
        sorted((one.top, one.bottom) for one in made.spines if one.left == left)
        for left in made.columns
    ]


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_masses_are_drawn_to_the_stated_scale(width: float, height: float) -> None:
    made = lay_out_river(graph(), width, height, _measure)
    px_per_g = made.scale.px_per_g
    for placed in made.ribbons:
        exact = placed.ribbon.mass_g * px_per_g
        assert placed.thickness == pytest.approx(max(LEAST, exact))
        assert placed.to_scale == (exact >= LEAST)
    for spine in made.spines:
        if spine.to_scale and spine.height > 12:
            # Threads drawn thicker than they are may add a few pixels, never take any.
            over = spine.height - spine.node.mass_g * px_per_g
            assert -1e-6 <= over <= 2 * LEAST


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_columns_begin_at_the_top_keep_their_gaps_and_end_above_the_foot(
    width: float, height: float
) -> None:
    made = lay_out_river(graph(), width, height, _measure)
    assert made.height == height
    for column in _columns(made):
        assert column[0][0] == HEAD
        assert column[-1][1] <= height - FOOT + 0.5
        for one, other in itertools.pairwise(column):
            assert other[0] - one[1] >= GAP - 1e-6
    assert made.columns[-1] + SPINE == pytest.approx(width - 19)


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_ribbons_of_a_spine_lie_side_by_side_within_it(width: float, height: float) -> None:
    made = lay_out_river(graph(), width, height, _measure)
    for spine in made.spines:
        out = sorted(
            (one.top_left, one.thickness)
            for one in made.ribbons
            if one.ribbon.source == spine.node.key
        )
        into = sorted(
            (one.top_right, one.thickness)
            for one in made.ribbons
            if one.ribbon.target == spine.node.key
        )
        for side in (out, into):
            for (top, thick), (below, _) in itertools.pairwise(side):
                assert below == pytest.approx(top + thick)
            if side:
                assert side[0][0] == pytest.approx(spine.top)
                assert side[-1][0] + side[-1][1] <= spine.bottom + 1e-6


def test_a_ribbon_runs_level_under_the_plates_and_curves_between() -> None:
    made = lay_out_river(graph(), 1392.0, 248.0, _measure)
    for placed in made.ribbons:
        assert placed.left <= placed.level_from < placed.level_to <= placed.right
        source = made.spine(placed.ribbon.source)
        assert source is not None
        if source.plate is not None and source.plate.right - source.right < 150:
            assert placed.level_from >= source.plate.right


def test_the_scale_is_a_simple_ratio_in_words() -> None:
    assert simple_scale(11.3 / 20_000).px_per_g <= 11.3 / 20_000
    assert Scale(11, 20_000).words == "11 px = 20 kg"
    assert Scale(10, 200).words == "10 px = 200 g"
    assert Scale(10, 5_000_000).words == "10 px = 5\u202f000 kg"
    for most in (1e-6, 3e-5, 0.0007, 0.2, 4.0):
        scale = simple_scale(most)
        assert 5 <= scale.px <= 20
        assert 0.8 * most <= scale.px_per_g <= most
        assert str(scale.grams).rstrip("0") in ("1", "2", "5")


def _wide(count: int) -> RiverGeometry:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    nodes = [RiverNode(f"S{n}", "pull", f"S{n}", 1000 + n, pfund_mm=30) for n in range(count)]
    whole_g = sum(node.mass_g for node in nodes)
    nodes.append(RiverNode("D1", "drum", "D1", whole_g, pfund_mm=40))
    ribbons = [RiverRibbon(f"S{n}", "D1", 1000 + n) for n in range(count)]
    made = river_graph(heads, nodes, ribbons, whole_g)
    return lay_out_river(folded(made, most_in_column(400.0)), 1200.0, 400.0, _measure)


@pytest.mark.parametrize("count", [3, 12, 300, 3000])
def test_a_river_of_any_number_of_lots_fits_its_place(count: int) -> None:
    made = _wide(count)
    assert made.height == 400.0
    assert len(made.spines) <= most_in_column(400.0) + 1


def test_an_open_band_makes_the_river_grow_downwards() -> None:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    nodes = [RiverNode(f"S{n}", "pull", f"S{n}", 1000, pfund_mm=30) for n in range(200)]
    nodes.append(RiverNode("D1", "drum", "D1", 200_000, pfund_mm=40))
    ribbons = [RiverRibbon(f"S{n}", "D1", 1000) for n in range(200)]
    opened = river_graph(heads, nodes, ribbons, 200_000)
    made = lay_out_river(opened, 1200.0, 248.0, _measure)
    assert made.height > 200 * (GAP + LEAST)
    assert len(made.spines) == 201
    assert made.spine("S17") is not None
    assert made.spine("S999") is None


def test_before_the_last_column_there_is_room_for_two_plates() -> None:
    near = lay_out_river(graph(), 1000.0, 300.0, _measure).columns
    yards, *gaps = (after - before for before, after in itertools.pairwise(near))
    assert gaps[-1] > gaps[0]
    assert len({round(gap, 6) for gap in gaps[:-1]}) == 1
    wide = lay_out_river(graph(), 1800.0, 300.0, _measure).columns
    names, *gaps = (after - before for before, after in itertools.pairwise(wide))
    assert max(gaps) - min(gaps) < 0.01
    assert names > gaps[0], "names are longer than codes"
    assert yards > near[2] - near[1]


def test_a_column_of_threads_alone_is_narrow_and_stands_below_the_honey() -> None:
    heads = {kind: RiverColumn(kind) for kind in ("pull", "other", "fill", "drum")}
    nodes = [
        RiverNode("S1", "pull", "S1", 990),
        RiverNode("S2", "pull", "S2", 10),
        RiverNode("X1", "other", "X1", 10),
        RiverNode("T1", "fill", "T1", 1000),
        RiverNode("D1", "drum", "D1", 1000),
    ]
    pairs = [("S1", "T1", 990), ("S2", "X1", 10), ("X1", "T1", 10), ("T1", "D1", 1000)]
    made = lay_out_river(
        river_graph(heads, nodes, [RiverRibbon(*one) for one in pairs], 1000),
        1200.0,
        300.0,
        _measure,
    )
    pulls, others, fills, _ = made.columns
    assert fills - others < others - pulls
    lowest = max(spine.bottom for spine in made.spines if spine.node.mass_g > 500)
    for key in ("S2", "X1"):
        thread = made.spine(key)
        assert thread is not None
        assert thread.top > lowest, "no honey flows over it"


def test_threads_of_one_side_begin_together_and_too_many_wait_to_be_asked_for() -> None:
    heads = {"pull": RiverColumn("Pulls"), "fill": RiverColumn("Fills")}
    nodes = [RiverNode(f"S{n}", "pull", f"S{n}", 10_000) for n in range(20)]
    nodes += [RiverNode(f"T{n}", "fill", f"T{n}", 10_000) for n in range(20)]
    ribbons = [RiverRibbon(f"S{n}", f"T{n}", 10_000) for n in range(20)]
    ribbons += [RiverRibbon(f"S{n}", f"T{m}", 0) for n in range(20) for m in range(20) if n != m]
    made = lay_out_river(river_graph(heads, nodes, ribbons, 200_000), 900.0, 900.0, _measure)
    threads = [one for one in made.ribbons if not one.to_scale]
    assert len(threads) == 380
    for n in range(20):
        assert len({one.top_left for one in threads if one.ribbon.source == f"S{n}"}) == 1
    seen = [one for one in threads if not one.is_minor]
    assert len(seen) == 120
    assert {one.ribbon.source for one in seen} == {f"S{n}" for n in range(20)}
    assert {one.ribbon.target for one in seen} == {f"T{n}" for n in range(20)}
    assert made.undrawn == 260


def test_the_graph_is_folded_to_the_height_it_is_drawn_in() -> None:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    pulls = [RiverNode(f"S{n}", "pull", f"S{n}", 100) for n in range(40)]
    ribbons = [RiverRibbon(node.key, "D", 100) for node in pulls]
    made = river_graph(heads, [*pulls, RiverNode("D", "drum", "D", 4000)], ribbons, 4000)
    low, high = (folded_to(made, height, "{n} more") for height in (200.0, 700.0))
    assert len(low.nodes) < len(high.nodes) < len(made.nodes)
    assert low.node("fold:0").label == f"{40 - len(low.in_column(0)) + 1} more"
    assert folded_to(made, 200.0, "{n} more", {0}) == made
