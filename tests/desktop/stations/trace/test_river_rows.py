"""The river of a real trace: every lot with its ribbons, masses that agree, names that answer."""

from datetime import date
from pathlib import Path

import pytest

from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.models.river_graph import RiverGraph
from honeyledger.desktop.models.river_layout import folded_to
from honeyledger.desktop.stations.trace import river_rows
from honeyledger.desktop.stations.trace.river_rows import (
    HERE,
    code_of,
    is_end,
    river_forward,
    river_of,
)
from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.house import House
from honeyledger.services.trace_page import TracePage, forward_page, trace_page
from tests.support.houses import BuiltHouse
from tests.support.sample import code, sample_house


def _page(house: House, text: str) -> TracePage:
    return house.ask(lambda view: trace_page(view, text))


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> House:
    return sample_house(tmp_path_factory.mktemp("rivers"))


def _heel() -> tuple[BuiltHouse, str]:
    """A drum of one yard, with another yard's heel in it."""
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    built.load(built.yard("Long Field"), 100_000, tank)
    built.drum(tank, 90_000)
    built.load(built.yard("Mill Lane"), 290_000, tank)
    return built, built.drum(tank, 280_000)


def _columns(graph: RiverGraph) -> list[str]:
    return [column.title for column in graph.columns]


def test_from_yards_to_the_drum() -> None:
    built, drum = _heel()
    page = _page(built.house, drum)
    graph = river_of(page)
    assert _columns(graph) == ["Yards", "Pulls", "Tank fills", "Drums"]
    assert graph.whole_g == 280_000
    assert graph.node(drum).mass_g == 280_000
    into = sum(one.mass_g for one in graph.ribbons if one.target == drum)
    assert into == 280_000
    yards = {node.label: node for node in graph.nodes if node.kind == "yard"}
    assert {name: node.mass_g for name, node in yards.items()} == {
        line.row.name: line.row.grams for line in page.yards
    }
    assert all(node.is_named for node in yards.values()), "the answer names both"
    assert any(one.heel for one in graph.ribbons)


def test_the_heads_say_the_days_in_few_words() -> None:
    built, drum = _heel()
    heads = {column.title: column.dates for column in river_of(_page(built.house, drum)).columns}
    assert heads["Yards"] == "2 in reach"
    assert heads["Drums"] == "24 Jul 2026"


def test_a_yards_key_is_its_own_and_stands_for_its_code() -> None:
    built, drum = _heel()
    graph = river_of(_page(built.house, drum))
    keys = [node.key for node in graph.nodes if node.kind == "yard"]
    assert sorted(code_of(key) for key in keys) == ["Y26-0001-P", "Y26-0002-N"]
    assert code_of(drum) == drum


def test_honey_nobody_knows_the_source_of_stands_alone() -> None:
    built = BuiltHouse()
    done = built.do(Fill(built.vessel("Tank 2"), Weight(net_g=1_000)))
    page = _page(built.house, next(one for one in done.codes if one[0] == "D"))
    graph = river_of(page)
    (source,) = [node for node in graph.nodes if node.kind == "yard"]
    assert source.label == "source not known"
    assert code_of(source.key) in {lot.code for lot in page.lots}
    assert all(node.pfund_mm is None for node in graph.nodes)


def test_what_was_added_stands_beside_the_honey_and_comes_from_no_yard() -> None:
    built = BuiltHouse()
    tank, cream = built.vessel("Tank 1"), built.vessel("Cream tank")
    built.do(Register("supplier", {"name": "Spice Trade"}))
    facts = Supply("Spice Trade", "ingredient", "Cinnamon", Weight(net_g=9_000))
    spice = built.do(facts).codes[0]
    built.load(built.yard("Long Field"), 100_000, tank)
    parts = (Portion(tank, Weight(net_g=98_000)), Portion(spice, Weight(net_g=2_000)))
    built.do(Blend(cream, parts))
    drum = built.drum(cream, 100_000)
    graph = river_of(_page(built.house, drum))
    assert graph.node(spice).mass_g == 2_000
    assert _columns(graph)[:2] == ["Yards", "Added"]
    assert [node.mass_g for node in graph.nodes if node.key.startswith("from ")] == [98_000]
    assert [node.key for node in river_of(_page(built.house, spice)).nodes] == [spice]


def test_forward_the_traced_honey_ends_with_customers_and_here() -> None:
    built, drum = _heel()
    built.do(Register("customer", {"name": "Corner Shop"}))
    built.do(Dispatch("Corner Shop", (DispatchLine(drum),)))
    page = built.house.ask(lambda view: forward_page(view, "Long Field"))
    graph = river_forward(page)
    assert _columns(graph) == ["Yard", "Pulls", "Tank fills", "Drums", "Now"]
    assert graph.whole_g == page.whole_g == 100_000
    yard = graph.nodes[0]
    assert (yard.label, yard.mass_g, code_of(yard.key)) == ("Long Field", 100_000, page.trace.code)
    ends = {node.label: node for node in graph.nodes if is_end(node.key)}
    assert set(ends) == {"Corner Shop", "still here"}
    assert sum(node.mass_g for node in ends.values()) == pytest.approx(100_000, abs=2)
    assert {code_of(node.key) for node in ends.values()} == {"corner-shop", ""}
    assert any(one.heel for one in graph.ribbons)


def test_forward_from_a_lot_begins_with_the_lot() -> None:
    built, drum = _heel()
    page = built.house.ask(lambda view: forward_page(view, drum))
    graph = river_forward(page)
    assert _columns(graph) == ["Drums", "Now"]
    assert graph.node(drum).mass_g == graph.node(HERE).mass_g == 280_000


def test_a_jar_stands_at_the_right_with_its_day(sample: House) -> None:
    lot = parse_code(code("bottling 16"))
    assert isinstance(lot, Code)
    jar = str(make_jar_code(lot, 9))
    page = _page(sample, jar)
    graph = river_of(page)
    assert graph.columns[-1].title == "Jars"
    assert graph.columns[-1].dates == format_day(date.fromisoformat(page.day))
    assert graph.node(jar).column == len(graph.columns) - 1
    read = [node for node in graph.nodes if node.pfund_mm is not None]
    assert read, "what was not read takes the mean of what it was made of"


def test_every_lot_of_the_sample_has_a_river(sample: House) -> None:
    """Heels upon heels, unknown sources, honey bought in, cappings drained: none breaks it."""
    stock = sample.ask(
        lambda view: sorted({row.lot.code for row in view.on_hand(["vessel", "drum", "jars"])})
    )
    for text in stock:
        page = _page(sample, text)
        graph = river_of(page)
        assert graph.node(text).mass_g == page.trace.made_g, text
        small = folded_to(graph, 200.0, "{n} small ones")
        assert len(small.nodes) <= len(graph.nodes)
        kept = {code_of(node.key) for node in small.nodes}
        assert page.yards[0].row.code in kept, text


def test_it_needs_no_window(sample: House) -> None:
    """The river is made in the read lane, where no widget may be touched."""
    source = Path(river_rows.__file__).read_text("utf-8")
    assert "QtWidgets" not in source
    assert river_of(_page(sample, code("drum 45"))).nodes
