"""Random seasons over all verbs, with late entries, amendments and reversals.

After each step every invariant holds; at the end traces back and forward are inverse, networkx
finds the same reach, exact fractions the same shares, and the same facts said again give the
same digests.
"""

import json
from collections import defaultdict
from collections.abc import Mapping
from contextlib import ExitStack
from fractions import Fraction
from itertools import count

import networkx
import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from honeyledger.ledger.holds import open_holds, reach_of, targets_of
from honeyledger.ledger.trace_rows import BackTrace
from honeyledger.persistence.tables import PROJECTIONS
from honeyledger.services.house import House
from honeyledger.services.store import EntryHead, Store, View
from honeyledger.services.tracing import trace_back, trace_forward
from tests.support.engines import POSTGRESQL, SITE, SQLITE
from tests.support.random_house import DEEDS, RandomHouse
from tests.support.raw_books import origins, reversed_entries, rows

STEPS = 40
LOOKS = {SQLITE: 1, POSTGRESQL: 8}
"""After how many steps every invariant is looked at: an audit takes far longer on a server."""
NEAR = 1e-9


class RandomSeason(RuleBasedStateMachine):
    """Deeds in any order."""

    def __init__(self) -> None:
        super().__init__()
        self._site = ExitStack()
        self._site.enter_context(SITE.for_a_while())
        self.season = RandomHouse(seed=7)
        self.steps = 0

    @rule(deed=st.sampled_from(DEEDS), seed=st.integers(0, 1_000_000))
    def work(self, deed: str, seed: int) -> None:
        """One deed; what it leaves open is drawn from its seed."""
        self.season.random.seed(seed)
        self.season.deed(deed)

    @invariant()
    def every_invariant_holds(self) -> None:
        """All of them, by name, a replay of the whole ledger included."""
        self.steps += 1
        if self.steps % LOOKS[SITE.engine] == 0:
            _holds(self.season.built.store)

    def teardown(self) -> None:
        """What is true at the end of a season."""
        with self._site:
            _holds(self.season.built.store)
            _is_true_at_the_end(self.season.built.store)


def _holds(store: Store) -> None:
    assert [finding for finding in store.audit() if not finding.holds] == []


def _is_true_at_the_end(store: Store) -> None:
    books = Books(store)
    with store.reading() as view:
        backs = {lot: trace_back(view, code) for lot, code in books.codes.items()}
        _reach_is_the_same(books, backs)
        _shares_are_the_same(books, backs)
        _back_and_forward_are_inverse(view, books, backs)
        _holds_reach_what_comes_of_them(view, books)
    _replays(store)


class Books:
    """Lots that count, and whose origin is what, read without the program's own questions."""

    def __init__(self, store: Store) -> None:
        gone = reversed_entries(store)
        lots = rows(store, "SELECT id, code, made_by, made_g, attributes FROM lot")
        self.codes = {lot: code for lot, code, made_by, _, _ in lots if made_by not in gone}
        self.added = {lot for lot, code, *_ in lots if code[0] == "A"}
        self.made_g = {lot: made_g for lot, _, _, made_g, _ in lots}
        self.origins = origins(store)
        self._first = {lot: json.loads(attributes) for lot, *_, attributes in lots}
        sums = "SELECT lot, place, -SUM(grams) FROM posting GROUP BY lot, place"
        self._given: dict[int, dict[str, int]] = defaultdict(dict)
        for lot, place, grams in rows(store, sums):
            if place.partition("/")[0] in ("yard", "supplier", "unknown"):
                self._given[lot][place] = int(grams)  # a server's sums are decimals

    def is_source(self, lot: int) -> bool:
        """Whether traces of honey end at a lot; what was added to it is no honey."""
        return lot in self._given and lot not in self.added

    def places(self, lot: int) -> dict[str, Fraction]:
        """The parts of a source lot by first ancestor's code; one given away keeps its first."""
        given = {place: grams for place, grams in self._given[lot].items() if grams > 0}
        if not given:
            first = self._first[lot]
            kind = "yard" if "yard" in first else "supplier" if "supplier" in first else ""
            given = {f"{kind}/{first[kind]}" if kind else "unknown": 1}
        total = sum(given.values())
        return {
            self.codes[lot] if place == "unknown" else place.partition("/")[2]: Fraction(g, total)
            for place, g in given.items()
        }

    def shares(self, lot: int) -> dict[int, Fraction]:
        """Shares of a lot's ancestors as fractions, by Kahn's order over the rows with grams."""
        made_of: dict[int, list[tuple[int, int]]] = defaultdict(list)
        for row in self.origins:
            if row.grams:
                made_of[row.child].append((row.parent, row.grams))
        waiting_for: dict[int, int] = defaultdict(int)
        seen, stack = {lot}, [lot]
        while stack:
            for parent, _ in made_of.get(stack.pop(), ()):
                waiting_for[parent] += 1
                if parent not in seen:
                    seen.add(parent)
                    stack.append(parent)
        shares, ready = {lot: Fraction(1)}, [lot]
        while ready:
            child = ready.pop()
            for parent, grams in made_of.get(child, ()):
                part = shares[child] * Fraction(grams, self.made_g[child])
                shares[parent] = shares.get(parent, Fraction(0)) + part
                waiting_for[parent] -= 1
                if not waiting_for[parent]:
                    ready.append(parent)
        return shares


def _reach_is_the_same(books: Books, backs: Mapping[int, BackTrace]) -> None:
    """networkx finds the same lots."""
    graph = networkx.DiGraph([(row.child, row.parent) for row in books.origins])
    for lot, trace in backs.items():
        found = networkx.descendants(graph, lot) if lot in graph else set()
        assert {row.id for row in trace.lots} == found | {lot}


def _shares_are_the_same(books: Books, backs: Mapping[int, BackTrace]) -> None:
    """Exact fractions give the same shares, of lots and of first ancestors, adding up to 1."""
    lots = {code: lot for lot, code in books.codes.items()}
    for lot, trace in backs.items():
        exact = books.shares(lot)
        for row in trace.lots:
            assert row.share >= 0
            assert abs(row.share - exact.get(row.id, Fraction(0))) < NEAR
        honey = 1 - sum(share for one, share in exact.items() if one in books.added)
        wanted: dict[str, Fraction] = defaultdict(Fraction)
        for ancestor, share in exact.items():
            if ancestor in books.codes and books.is_source(ancestor):
                for code, part in books.places(ancestor).items():
                    wanted[code] += share * part / honey
        assert sum(wanted.values()) == bool(honey)
        for row in trace.added:
            assert abs(row.share - exact.get(lots[row.code], Fraction(0))) < NEAR
        for one in trace.ancestors:
            assert abs(one.share - wanted.pop(one.code, Fraction(0))) < NEAR
        assert not any(wanted.values())
        assert sum(one.grams for one in trace.ancestors) == trace.honey_g
        assert abs(trace.honey_g - honey * trace.made_g) <= 1


def _back_and_forward_are_inverse(
    view: View, books: Books, backs: Mapping[int, BackTrace]
) -> None:
    """A first ancestor is in a lot's trace exactly where the lot is in its forward trace."""
    back: dict[str, set[int]] = defaultdict(set)
    for lot, trace in backs.items():
        for row in trace.ancestors:
            back[row.code].add(lot)
    for code, lots in back.items():
        assert {row.id for row in trace_forward(view, code).lots} & set(books.codes) == lots


def _holds_reach_what_comes_of_them(view: View, books: Books) -> None:
    """A hold's reach is the trace forward of what it stands on, less what was cleared for it."""
    graph = networkx.DiGraph([(row.parent, row.child) for row in books.origins])
    for hold in open_holds(view):
        targets = targets_of(view, hold)
        graph.add_nodes_from(targets)
        forward = targets.union(*(networkx.descendants(graph, lot) for lot in targets))
        standing = [
            lot for lot in view.lots(targets).values() if not view.reversed_by(lot.made_by)
        ]
        for lot in standing:  # one whose entry was reversed stands for nothing, and is not traced
            assert {row.id for row in trace_forward(view, lot.code).lots} <= forward
        free = set()
        for lot, known in hold.cleared.items():
            above = networkx.ancestors(graph, lot) if lot in graph else set()
            if above & forward <= known:
                free.add(lot)
        passed = networkx.restricted_view(graph, free - targets, ())
        wanted = targets.union(*(networkx.descendants(passed, lot) for lot in targets))
        edges = view.descent(sorted(targets)) if targets else ()
        assert reach_of(hold, targets, edges) == wanted
        assert wanted <= forward
        if not free:
            assert wanted == forward


def _replays(store: Store) -> None:
    """The entries alone, written once more, give the same digests and the same projections.

    They are written into memory, so that on a server the two engines are compared as well.
    """
    again = SITE.in_memory()
    with store.reading() as view, again.writing() as unit:
        for entry in view.entries():
            unit.append(entry)
        head = view.head()
    with again.reading() as view:
        assert view.head() == head
    for table in PROJECTIONS:
        sql = f"SELECT * FROM {table.name}"
        assert rows(again, sql) == rows(store, sql), table.name
    again.close()


def _run(examples: int) -> None:
    run_state_machine_as_test(
        RandomSeason,
        settings=settings(
            max_examples=examples,
            stateful_step_count=STEPS,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


def test_random_seasons() -> None:
    _run(SITE.some(50))


@pytest.mark.full
def test_five_hundred_random_seasons() -> None:
    _run(500)


@pytest.mark.parametrize("seed", range(SITE.some(4)))
def test_the_same_facts_said_again_give_the_same_digests(seed: int) -> None:
    season = RandomHouse(seed)
    for _ in range(120):
        season.deed(season.random.choice([deed for deed in DEEDS if deed != "chain"]))
    first = season.built.house.ask(lambda view: [head.digest for head in _heads(view)])
    again = RandomHouse(seed)
    numbers = count(1)
    store = again.built.store
    for facts, now_ms, said in season.said:
        house = House(store, lambda now_ms=now_ms: now_ms, lambda: f"never-{next(numbers)}")
        house.record(facts, said)
    second = again.built.house.ask(lambda view: [head.digest for head in _heads(view)])
    assert len(season.said) > 20
    assert first == second


def _heads(view: View) -> list[EntryHead]:
    return list(view.entry_heads(range(1, view.head().entry + 1)))
