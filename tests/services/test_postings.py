"""Every posting as a row: what stands on it, and in which order."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.hot_room import Dry
from honeyledger.services import postings
from honeyledger.services.postings import every_posting
from tests.support.houses import BuiltHouse


def test_a_posting_has_its_entrys_header_its_lot_and_its_place() -> None:
    house = BuiltHouse()
    _, pallet = house.pull(house.yard("Long Field"), 120_000)
    rows = house.house.ask(lambda view: list(every_posting(view)))
    assert [(row.kind, row.lot_kind, row.bucket, row.line) for row in rows] == [
        ("receive", "S", "yard", 1),
        ("receive", "S", "pallet", 2),
    ]
    left, came = rows
    assert (left.where, came.where) == ("Long Field", f"pallet {pallet}")
    assert left.grams == -came.grams < 0
    assert left.lot == came.lot
    assert (left.reverses, left.reversed_by, left.before, left.after) == (0, 0, None, None)


def test_a_reversal_and_what_it_undoes_are_both_there() -> None:
    house = BuiltHouse()
    house.pull(house.yard("Long Field"), 120_000)
    entry = house.house.ask(lambda view: view.head().entry)
    house.do(Reverse(entry, "typed twice"))
    rows = house.house.ask(lambda view: list(every_posting(view)))
    assert [(row.entry, row.reverses, row.reversed_by) for row in rows] == [
        *[(entry, 0, entry + 1)] * 2,
        *[(entry + 1, entry, 0)] * 2,
    ]
    assert sum(row.grams for row in rows if row.bucket == "pallet") == 0


def test_honey_that_dried_has_its_moistures_beside_it() -> None:
    house = BuiltHouse()
    _, pallet = house.pull(house.yard("Long Field"), 120_000)
    house.do(Dry(pallet, before=1_950, after=1_800))
    rows = house.house.ask(lambda view: list(every_posting(view)))
    dried = {(row.bucket, row.before, row.after) for row in rows if row.kind == "dry"}
    assert dried == {("pallet", 1_950, 1_800), ("evaporated", 1_950, 1_800)}


def test_a_long_ledger_is_read_page_by_page(monkeypatch: pytest.MonkeyPatch) -> None:
    house = BuiltHouse()
    yard = house.yard("Long Field")
    for _ in range(5):
        house.pull(yard, 120_000)
    whole = house.house.ask(lambda view: list(every_posting(view)))
    monkeypatch.setattr(postings, "PAGE", 2)
    assert house.house.ask(lambda view: list(every_posting(view))) == whole
    assert [row.entry for row in whole] == sorted(row.entry for row in whole)
    assert len(whole) == 10
