"""A laid river answers points and arrows, folded and open."""

import pytest

from honeyledger.desktop.models.river_fold import FOLD
from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
    river_graph,
)
from honeyledger.desktop.models.river_layout import HIT_LEAST
from honeyledger.desktop.models.river_walk import LaidRiver, RiverRoom, laid_river
from tests.desktop.gallery_trace import graph

WORDS = ("{n} small ones", "fold again")


def _measure(line: str) -> float:
    return 10.0 * len(line)


def _laid(whole: RiverGraph, *opened: int) -> LaidRiver:
    return laid_river(whole, RiverRoom(1200.0, 300.0, frozenset(opened)), _measure, WORDS)


def _many(count: int) -> RiverGraph:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    pulls = [RiverNode(f"S{n}", "pull", f"S{n}", 1000 + n) for n in range(count)]
    whole_g = sum(node.mass_g for node in pulls)
    ribbons = [RiverRibbon(node.key, "D", node.mass_g) for node in pulls]
    return river_graph(heads, [*pulls, RiverNode("D", "drum", "D", whole_g)], ribbons, whole_g)


def test_a_lot_is_found_at_its_spine_on_its_plate_and_as_near_as_a_finger() -> None:
    laid = _laid(graph())
    for spine in laid.geometry.spines:
        found = laid.at(spine.left + 6, spine.middle)
        assert found is not None
        assert found.node.key == spine.node.key
    thread = laid.spine("S26-0417-5")
    assert thread is not None
    near = laid.at(thread.left + 6, thread.middle + HIT_LEAST / 2 - 1)
    assert near is not None
    assert near.node.key == "S26-0417-5"
    tall = laid.spine("Y09")
    assert tall is not None
    assert tall.plate is not None
    assert laid.at(tall.plate.right, tall.middle) == tall
    assert laid.at(600, -30) is None


def test_what_is_folded_is_stood_for_by_its_band_until_it_is_opened() -> None:
    laid = _laid(_many(300))
    assert laid.stands_for("S0") == f"{FOLD}0"
    assert laid.stands_for("S299") == "S299"
    assert laid.stands_for("none of it") == ""
    opened = _laid(_many(300), 0)
    spine = opened.spine("S0")
    assert spine is not None
    assert spine.under.startswith("S0"), "every lot of an open column is named"
    assert opened.stands_for("S0") == "S0"
    assert opened.graph.columns[0].dates == "fold again"
    assert len(opened.geometry.spines) == 301


def test_arrows_lead_along_the_widest_ribbon_and_within_a_column() -> None:
    laid = _laid(graph())
    assert laid.along("Y09", forward=True) == "S26-0423-9"
    assert laid.along("J26-0147", forward=False) == "D26-0657-6"
    assert laid.along("J26-0147", forward=True) == ""
    below = laid.beside("Y09", 1)
    assert laid.beside(below, -1) == "Y09"
    assert laid.beside("none of it", 1) == ""
    assert laid.end_key(last=True) == "J26-0147"
    assert laid.end_key(last=False) == "Y09"


def test_threads_that_are_not_drawn_are_walked_too() -> None:
    heads = {kind: RiverColumn(kind) for kind in ("fill", "drum")}
    nodes = [RiverNode("T1", "fill", "T1", 99), RiverNode("D1", "drum", "D1", 99)]
    ribbons = [RiverRibbon("T1", "D1", 99), RiverRibbon("D1", "T1", 0)]
    laid = _laid(river_graph(heads, nodes, ribbons, 99))
    assert laid.along("D1", forward=True) == "T1"
    assert len(laid.geometry.ribbons) == 1


@pytest.mark.parametrize(("x", "column"), [(-5.0, 0), (0.0, 0), (30.0, 0), (1199.0, 4)])
def test_a_head_stands_over_its_column(x: float, column: int) -> None:
    assert _laid(graph()).column_at(x) == column


def test_it_is_told_lot_by_lot_however_it_is_folded() -> None:
    laid = _laid(_many(50))
    assert len(laid.words.splitlines()) == 51
    assert laid.first_key() in {spine.node.key for spine in laid.geometry.spines}
    empty = _laid(river_graph({}, [], [], 0))
    assert (empty.first_key(), empty.end_key(last=True)) == ("", "")
