"""Random seasons over all verbs, with late entries, amendments and reversals.

After each step every invariant holds; at the end traces back and forward are inverse, networkx
finds the same reach, exact fractions the same shares, and the same facts said again give the
same digests.
"""

from collections import defaultdict
from collections.abc import Mapping
from fractions import Fraction
from itertools import count

import networkx
import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from honeyledger.ledger.state import Edge
from honeyledger.services.house import House
from honeyledger.services.store import EntryHead, View
from honeyledger.services.tracing import trace_back, trace_forward
from tests.support.random_house import DEEDS, RandomHouse

STEPS = 30


class RandomSeason(RuleBasedStateMachine):
    """Deeds in any order."""

    def __init__(self) -> None:
        super().__init__()
        self.season = RandomHouse(seed=7)

    @rule(deed=st.sampled_from(DEEDS), seed=st.integers(0, 1_000_000))
    def work(self, deed: str, seed: int) -> None:
        """One deed; what it leaves open is drawn from its seed."""
        self.season.random.seed(seed)
        self.season.deed(deed)

    @invariant()
    def every_invariant_holds(self) -> None:
        """All of them, by name, a replay of the whole ledger included."""
        broken = [finding for finding in self.season.built.store.audit() if not finding.holds]
        assert broken == []

    def teardown(self) -> None:
        """What is true at the end of a season."""
        built = self.season.built
        built.house.ask(_reach_and_shares_agree)
        built.house.ask(_back_and_forward_are_inverse)


def _edges(view: View) -> list[Edge]:
    return list(view.ancestry(range(1, view.head().lot + 1)))


def _reach_and_shares_agree(view: View) -> None:
    """Reach against networkx, shares against exact fractions, over rows read apart."""
    edges = _edges(view)
    graph = networkx.DiGraph()
    made_of: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for edge in edges:
        graph.add_edge(edge.child, edge.parent)
        if edge.grams:
            made_of[edge.child].append((edge.parent, edge.grams))
    for lot in view.lots(range(1, view.head().lot + 1)).values():
        if view.reversed_by(lot.made_by):
            continue
        trace = trace_back(view, lot.code)
        reach = networkx.descendants(graph, lot.id) if lot.id in graph else set()
        assert {row.id for row in trace.lots} == reach | {lot.id}
        exact = _exact_shares(lot.id, made_of)
        for row in trace.lots:
            assert row.share == pytest.approx(float(exact.get(row.id, Fraction(0))), abs=1e-9)
            assert row.share >= 0
        assert sum(row.grams for row in trace.ancestors) == lot.made_g
        assert sum(row.share for row in trace.ancestors) == pytest.approx(1, abs=1e-9)


def _exact_shares(lot: int, made_of: Mapping[int, list[tuple[int, int]]]) -> dict[int, Fraction]:
    """Shares as fractions, by Kahn's order over the rows with grams."""
    waiting_for: dict[int, int] = defaultdict(int)
    seen, stack = {lot}, [lot]
    while stack:
        for parent, _ in made_of.get(stack.pop(), ()):
            waiting_for[parent] += 1
            if parent not in seen:
                seen.add(parent)
                stack.append(parent)
    shares = {lot: Fraction(1)}
    ready = [lot]
    while ready:
        child = ready.pop()
        rows = made_of.get(child, ())
        total = sum(grams for _, grams in rows)
        for parent, grams in rows:
            part = shares[child] * Fraction(grams, total)
            shares[parent] = shares.get(parent, Fraction(0)) + part
            waiting_for[parent] -= 1
            if not waiting_for[parent]:
                ready.append(parent)
    return shares


def _back_and_forward_are_inverse(view: View) -> None:
    """A first ancestor is in a lot's trace exactly where the lot is in its forward trace."""
    back: dict[str, set[str]] = defaultdict(set)
    for lot in view.lots(range(1, view.head().lot + 1)).values():
        if not view.reversed_by(lot.made_by):
            for row in trace_back(view, lot.code).ancestors:
                back[row.code].add(lot.code)
    for code, lots in back.items():
        reached = {row.code for row in trace_forward(view, code).lots}
        made = view.lots(range(1, view.head().lot + 1)).values()
        counting = {lot.code for lot in made if not view.reversed_by(lot.made_by)}
        assert reached & counting == lots, code


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


def test_fifty_random_seasons() -> None:
    _run(50)


@pytest.mark.full
def test_five_hundred_random_seasons() -> None:
    _run(500)


@pytest.mark.parametrize("seed", range(4))
def test_the_same_facts_said_again_give_the_same_digests(seed: int) -> None:
    season = RandomHouse(seed)
    for _ in range(60):
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
