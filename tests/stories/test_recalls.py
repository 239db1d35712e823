"""Recalls on random seasons: nothing shipped is ever missing from scope, and amounts add up.

networkx finds the scope and pandas the amounts, both over the tables' own rows, whatever the
seasons did: heels never washed, jars scraped back, returns resold, split pallets, late entries,
amendments, reversals, margins.
"""

import networkx
import pandas
import pytest

from honeyledger.ledger.verbs.recalls import OpenRecall
from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.recalls import recall_case
from honeyledger.services.store import Store
from tests.support.random_house import DEEDS, RandomHouse
from tests.support.raw_books import origins, reversed_entries, rows

DEEDS_A_SEASON = 70
INSIDE = ("pallet", "room", "vessel", "drum", "barrel", "filling", "jars", "store")


def by_pandas(store: Store, start: str) -> dict[str, int]:
    """Scope and amounts of what came of a lot."""
    codes = {code: lot for lot, code in rows(store, "SELECT id, code FROM lot")}
    graph = networkx.DiGraph([(row.parent, row.child) for row in origins(store)])
    graph.add_node(codes[start])
    scope = {codes[start], *networkx.descendants(graph, codes[start])}
    table = pandas.DataFrame(
        rows(store, "SELECT lot, place, grams FROM posting"), columns=["lot", "place", "grams"]
    )
    table = table[table["lot"].isin(scope)]
    table = table.assign(kind=[place.partition("/")[0] for place in table["place"]])
    sums = table.groupby("kind")["grams"].sum()
    by_lot = table[table["kind"] == "difference"].groupby("lot")["grams"].sum()
    return {
        "lots": len(scope),
        "here": int(sum(sums.get(kind, 0) for kind in INSIDE)),
        "sent": int(sums.get("customer", 0) + sums.get("gate", 0)),
        "missing": int(by_lot[by_lot > 0].sum()),
    }


def by_the_program(case: RecallCase) -> dict[str, int]:
    """The same as the case has it."""
    for lot in case.lots:
        parts = (lot.here_g, lot.shipped_g, lot.sampled_g, lot.destroyed_g, lot.other_g)
        assert lot.made_g == sum(parts) + lot.went_on_g + lot.missing_g
    return {
        "lots": len(case.lots),
        "here": case.here_g,
        "sent": case.shipped_g,
        "missing": case.missing_g,
    }


def _season(seed: int) -> None:
    season = RandomHouse(seed)
    work = [deed for deed in DEEDS if deed not in ("recall", "chain")]
    for _ in range(DEEDS_A_SEASON):
        season.deed(season.random.choice(work))
    built, store = season.built, season.built.store
    gone = reversed_entries(store)
    made = rows(store, "SELECT code, made_by FROM lot")
    lots = sorted(code for code, made_by in made if made_by not in gone)
    for start in season.random.sample(lots, min(4, len(lots))):
        done = built.do(OpenRecall("smoke", (start,), sort="drill"))
        code = next(one for one in done.given if one[0] == "Q")
        case = built.house.ask(lambda view, code=code: recall_case(view, built.now_ms, code))  # type: ignore[misc]
        assert by_the_program(case) == by_pandas(store, start), (seed, start)
        # Whoever has some of it is told of, with all that they have.
        assert sum(one.has_g for one in case.consignees) == case.shipped_g


@pytest.mark.parametrize("seed", range(30))
def test_thirty_random_seasons(seed: int) -> None:
    _season(seed)


@pytest.mark.full
@pytest.mark.parametrize("seed", range(30, 300))
def test_three_hundred_random_seasons(seed: int) -> None:
    _season(seed)
