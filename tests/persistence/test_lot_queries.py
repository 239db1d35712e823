from fractions import Fraction
from random import Random

import networkx
import pytest

from honeyledger.domain.refusals import Damage
from honeyledger.persistence.store import SqlStore
from tests.support.entries import Hand, write_season


def test_lots_by_id_code_and_source(store: SqlStore) -> None:
    hand = write_season(store)
    with store.reading() as view:
        drum = view.lot(hand.lot("D26-0001-D"))
        assert (drum.code, drum.kind, drum.made_by, drum.made_g) == ("D26-0001-D", "D", 4, 25_000)
        assert view.lot_by_code("D26-0001-D") == drum
        assert view.lot_by_code("D26-0009-X") is None
        assert set(view.lots([1, 3])) == {1, 3}
        assert [lot.code for lot in view.source_lots("yard/Y26-0001-K")] == ["S26-0001-A"]
        assert view.source_lots("difference") == []


def test_a_lot_that_is_not_there_is_damage(store: SqlStore) -> None:
    with store.reading() as view:
        with pytest.raises(Damage, match="lot 7: its row is missing"):
            view.lot(7)
        with pytest.raises(Damage, match="lot 7: its row is missing"):
            view.lots([7])
        with pytest.raises(Damage, match="lot 7: its row is missing"):
            view.lot_heads([7])


def test_a_place_given_back_whole_is_still_a_source(store: SqlStore) -> None:
    hand = write_season(store)
    away = [("S26-0001-A", "yard/Y26-0001-K", 60_000), ("S26-0001-A", "yard/Y26-0009-Q", -60_000)]
    hand.write("amend", [], away, marks=[["S26-0001-A", "amended", {"to": "yard/Y26-0009-Q"}]])
    with store.reading() as view:
        for place in ("yard/Y26-0001-K", "yard/Y26-0009-Q"):
            assert [lot.code for lot in view.source_lots(place)] == ["S26-0001-A"]


def test_void_rows_do_not_count(store: SqlStore) -> None:
    hand = write_season(store)
    fill, drum, early, late = (
        hand.lot(code) for code in ("T26-0001-T", "D26-0001-D", "S26-0001-A", "S26-0002-B")
    )
    with store.reading() as view:
        assert [(edge.child, edge.parent) for edge in view.ancestry([drum])] == [
            (drum, fill),
            (fill, early),
        ]
        assert view.descent([late]) == []
        assert [edge.parent for edge in view.origins(fill)] == [early]
    hand.write("reverse", reverses=9)  # the narrowing
    with store.reading() as view:
        assert [edge.parent for edge in view.origins(fill)] == [early, late]
        assert view.origins(fill)[1].late == 1
        assert {edge.child for edge in view.descent([late])} == {fill, drum}


def test_a_walk_survives_a_circle(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("late", [], [], [("T26-0001-T", "D26-0001-D", 0)])
    fill, drum = hand.lot("T26-0001-T"), hand.lot("D26-0001-D")
    with store.reading() as view:
        assert (fill, drum) in {(edge.child, edge.parent) for edge in view.ancestry([drum])}
        assert (drum, fill) in {(edge.child, edge.parent) for edge in view.descent([drum])}


def test_reach_and_order_are_those_of_a_graph_library(store: SqlStore) -> None:
    hand, chance, codes = Hand(store), Random(5), list[str]()
    graph = networkx.DiGraph()
    for number in range(1, 41):
        parents = chance.sample(codes, min(len(codes), chance.choice([0, 1, 2, 3])))
        code = f"{'T' if parents else 'S'}26-{number:04}-X"
        grams = [100] * len(parents)
        posts = [(code, "yard/Y" if not parents else "difference", -100 * (len(parents) or 1))]
        posts.append((code, "vessel/V", 100 * (len(parents) or 1)))
        rows = [(code, parent, part) for parent, part in zip(parents, grams, strict=True)]
        hand.write("mix", [(code, 100 * (len(parents) or 1))], posts, rows)
        graph.add_node(hand.lot(code))
        graph.add_edges_from((hand.lot(parent), hand.lot(code)) for parent in parents)
        codes.append(code)
    with store.reading() as view:
        for lot in graph:
            back = view.ancestry([lot])
            assert {edge.parent for edge in back} == networkx.ancestors(graph, lot)
            assert [edge.child for edge in back] == sorted(
                (edge.child for edge in back), reverse=True
            )
            ahead = view.descent([lot])
            assert {edge.child for edge in ahead} == networkx.descendants(graph, lot)
            assert [edge.parent for edge in ahead] == sorted(edge.parent for edge in ahead)
        both = view.ancestry([38, 39])
        assert len(both) == len({(edge.entry, edge.line) for edge in both}), "each row once"
        whole = sum(Fraction(edge.grams) for edge in view.origins(40))
        assert whole in (0, view.lot(40).made_g)


def test_lots_that_an_answer_named_are_read_with_the_first_one_asked_for(store: SqlStore) -> None:
    write_season(store)
    with store.reading() as view:
        named = sorted({stay.lot for stay in view.stays("vessel/E26-0001-V", 0)})
        assert len(named) > 1
        first = view.lot(named[0])
        assert view._lots_read.keys() == set(named)
        assert [view.lot(one).id for one in named] == named
        assert view.lot(named[0]) is first
