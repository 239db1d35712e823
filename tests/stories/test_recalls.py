"""Recalls on random seasons: nothing shipped is ever missing from scope, and amounts add up.

networkx finds the scope and pandas the amounts, both over the tables' own rows, whatever the
seasons did: heels never washed, jars scraped back, returns resold, split pallets, late entries,
amendments, reversals, margins.
"""

import pytest

from honeyledger.ledger.verbs.recalls import OpenRecall
from honeyledger.services.recalls import recall_case
from tests.support.engines import SITE
from tests.support.random_house import DEEDS, RandomHouse
from tests.support.raw_books import reversed_entries, rows
from tests.support.recall_oracle import by_pandas, by_the_program

DEEDS_A_SEASON = 70


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


@pytest.mark.parametrize("seed", range(SITE.some(30)))
def test_random_seasons(seed: int) -> None:
    _season(seed)


@pytest.mark.full
@pytest.mark.parametrize("seed", range(SITE.some(30), 300))
def test_three_hundred_random_seasons(seed: int) -> None:
    _season(seed)
