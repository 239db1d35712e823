"""A river can be heard as well as seen."""

from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverNode,
    RiverRibbon,
    river_graph,
)
from honeyledger.desktop.models.river_words import (
    node_sentence,
    node_words,
    river_sentences,
)
from tests.desktop.gallery_trace import graph


def test_a_lot_is_told_with_its_amounts() -> None:
    node = graph().node("Y09")
    assert node_words(node) == "Tamarack Rise, 195.8 kg, 61.2 %"


def test_a_lot_is_told_with_where_it_came_from_and_went() -> None:
    sentence = node_sentence(graph(), "S26-0420-F")
    assert sentence == (
        "Pulls: S26-0420-F, 91.8 kg, 28.7 %. From Tamarack Rise. Into T26-0098-L, T26-0101-S."
    )


def test_of_many_lots_the_largest_are_told_and_the_rest_counted() -> None:
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    pulls = [RiverNode(f"S{n}", "pull", f"S{n}", 100 + n) for n in range(20)]
    drum = RiverNode("D", "drum", "D", sum(node.mass_g for node in pulls))
    ribbons = [RiverRibbon(node.key, "D", node.mass_g) for node in pulls]
    made = river_graph(heads, [*pulls, drum], ribbons, drum.mass_g)
    words = node_sentence(made, "D")
    assert ". From S19, S18, " in words
    assert words.endswith("S8 and 8 more.")


def test_every_lot_is_told_column_by_column_largest_first() -> None:
    sentences = river_sentences(graph())
    assert len(sentences) == len(graph().nodes)
    assert sentences[0].startswith("Yards: Tamarack Rise")
    assert sentences[-1].startswith("Jars: J26-0147")
    assert len(river_sentences(graph(), most=3)) == 3
