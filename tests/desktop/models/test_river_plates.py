"""Plates say as much as there is room for, and never cover one another."""

from dataclasses import replace

import pytest

from honeyledger.desktop.models.river_graph import RiverNode
from honeyledger.desktop.models.river_layout import lay_out_river
from honeyledger.desktop.models.river_plates import (
    LABEL_FROM,
    PlacedSpine,
    Plate,
    labelled,
    plate_choices,
)
from tests.desktop.gallery_trace import graph

DRUM = RiverNode("D26-0657-6", "drum", "D26-0657-6", 212_800, "212.8 kg", "66.5 %")
JARS = RiverNode(
    "J26-0147", "jar", "J26-0147", 320_000, "320.0 kg", "100.0 %", details=("1 to 640",)
)


def _measure(line: str) -> float:
    return 10.0 * len(line)


def _meet(one: Plate, other: Plate) -> bool:
    across = one.left < other.right and other.left < one.right
    return across and one.top < other.top + other.height and other.top < one.top + one.height


@pytest.mark.parametrize("width", [820.0, 1000.0, 1232.0, 1392.0, 1856.0, 2500.0])
@pytest.mark.parametrize("height", [200.0, 248.0, 400.0])
def test_no_plate_covers_another(width: float, height: float) -> None:
    made = lay_out_river(graph(), width, height, _measure)
    plates = [one.plate for one in made.spines if one.plate is not None]
    for place, one in enumerate(plates):
        for other in plates[place + 1 :]:
            assert not _meet(one, other)


def test_a_tall_spine_says_more_than_a_low_one() -> None:
    assert plate_choices(DRUM, 60)[0] == ("D26-0657-6", "212.8 kg  66.5 %")
    assert plate_choices(DRUM, 30)[0] == ("D26-0657-6  66.5 %",)
    assert plate_choices(JARS, 200)[0] == ("J26-0147", "1 to 640", "320.0 kg", "100.0 %")
    assert plate_choices(JARS, 60)[-1] == ("J26-0147",)


def _spine(node: RiverNode, left: float, height: float) -> PlacedSpine:
    return PlacedSpine(node, left, 48.0, height, to_scale=True)


def _labelled(height: float, step: float, node: RiverNode = DRUM) -> PlacedSpine:
    far = replace(node, key="far")
    spines = {node.key: _spine(node, 19.0, height), "far": _spine(far, 19.0 + step, 4.0)}
    made = labelled(spines, [[node], [far]], [19.0, 19.0 + step], _measure)
    return made[node.key]


def test_under_sixteen_pixels_a_spine_has_no_plate() -> None:
    assert _labelled(LABEL_FROM - 1, 400.0).plate is None
    assert _labelled(LABEL_FROM, 400.0).plate is not None


def test_a_yard_named_in_the_answer_is_labelled_below_its_thread() -> None:
    named = replace(DRUM, label="Linden Bench", share="0.8 %", is_named=True)
    assert _labelled(3.0, 400.0, named).under == "Linden Bench 0.8 %"
    assert _labelled(30.0, 400.0, named).under == ""


def test_where_the_columns_are_near_a_plate_leaves_out_what_is_least_needed() -> None:
    wide, near = _labelled(60.0, 400.0).plate, _labelled(60.0, 160.0).plate
    assert wide is not None
    assert near is not None
    assert wide.lines == ("D26-0657-6", "212.8 kg  66.5 %")
    assert near.lines == ("D26-0657-6", "66.5 %")
    assert near.width <= 0.75 * 160.0


def test_the_last_plate_slides_along_its_spine_to_where_it_meets_no_other() -> None:
    """Columns so near that the plates of the last two cannot stand side by side."""
    before = replace(DRUM, key="before")
    spines = {
        "before": PlacedSpine(before, 100.0, 120.0, 20.0, to_scale=True),
        DRUM.key: PlacedSpine(DRUM, 260.0, 48.0, 200.0, to_scale=True),
    }
    made = labelled(spines, [[before], [DRUM]], [100.0, 260.0], _measure)
    near, last = made["before"].plate, made[DRUM.key].plate
    assert near is not None
    assert last is not None
    assert not _meet(near, last)
    assert 44.0 <= last.top <= 248.0 - last.height
