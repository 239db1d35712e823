"""How many questions each verb asks of the store while it is booked and written.

To a server each is a journey, on any machine; so they are counted, not timed. A verb may come to
ask more once somebody has looked why: then its number here is changed. A walk counts as one: a
server recurses by itself, where SQLite is asked level by level.
"""

from collections import defaultdict
from collections.abc import Collection

import pytest

from honeyledger.ledger.state import Edge
from honeyledger.persistence.lot_queries import LotQueries
from honeyledger.persistence.statements import Row, Statement
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House, Recorded, Said
from tests.bench.season import Clock, Scale, Season

SEASON = Scale(colonies=400, seasons=1, seed=11, mishaps=20)
MOST = {
    "register": 5,
    "open run": 9,
    "receive": 8,
    "load": 20,  # typed late: which runs were open then and are signed by now is one of them
    "wet out": 13,
    "fill": 27,
    "measure": 4,
    "close run": 25,
    "amend": 6,
    "reverse": 14,
    "cappings": 33,
    "wash": 10,
    "purchase": 6,
    "change-over": 10,  # four of them for the moisture it is told of
    "bottle": 26,  # five of them for the claims it seals, six for the moisture it is told of
    "reweigh": 8,
    "dispatch": 48,  # one of them for what its customer's market asks
}
"""The most questions of one entry, the whole season through; inserts are not questions."""

NOBODY = Said()


class Counting(House):
    """A house that notes the questions each kind of entry took."""

    asked: list[Row]
    most: dict[str, int]

    def record(self, facts: object, said: Said = NOBODY) -> Recorded:
        self.asked.clear()
        done = super().record(facts, said)
        kind = done.entries[0].kind
        self.most[kind] = max(self.most[kind], len(self.asked))
        return done


def test_no_verb_asks_more_than_it_did(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[Row] = []
    run, reached = Statement.run, LotQueries._reached

    def counted(self: Statement, cursor: object, engine: str, values: Row) -> None:
        asked.append(values)
        run(self, cursor, engine, values)

    def walked(self: LotQueries, lots: Collection[int], *, forward: bool) -> list[Edge]:
        before = len(asked)
        edges = reached(self, lots, forward=forward)
        asked[before:] = [()]
        return edges

    monkeypatch.setattr(Statement, "run", counted)
    monkeypatch.setattr(LotQueries, "_reached", walked)
    store = open_store(":memory:", create=True, new_id=lambda: "ledger-1")
    clock = Clock()
    house = Counting(store, clock, lambda: "unused")
    house.asked, house.most = asked, defaultdict(int)
    Season(house, clock, SEASON).work()
    store.close()
    assert house.most.keys() == MOST.keys()
    more = {kind: most for kind, most in house.most.items() if most > MOST[kind]}
    assert more == {}
