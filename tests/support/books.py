"""What the ledger says after a scenario, in plain values that a test can compare."""

from collections.abc import Mapping, Sequence
from typing import Any

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import class_of, key_of
from honeyledger.services.house import Recorded
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse


def turned_down(house: BuiltHouse, facts: Any, **said: Any) -> str:
    """The sentence the facts are refused with; nothing may have been written."""
    before = house.house.ask(lambda view: view.head())
    try:
        house.do(facts, **said)
    except Refusal as refusal:
        assert house.house.ask(lambda view: view.head()) == before
        return refusal.text
    raise AssertionError("it was not refused")


def refusal_of(house: BuiltHouse, facts: Any, **said: Any) -> Refusal:
    """The refusal itself: its field and its offers."""
    try:
        house.do(facts, **said)
    except Refusal as refusal:
        return refusal
    raise AssertionError("it was not refused")


def _named(view: View, where: str) -> str:
    """A place as people say it: a yard's or vessel's name, else its class and key."""
    named = name_of(view, where)
    return where if named == key_of(where) else named


def postings(house: BuiltHouse, done: Recorded | Entry) -> set[tuple[str, str, int]]:
    """(lot's code, place, grams) of all postings of what was recorded."""

    def rows(view: View) -> set[tuple[str, str, int]]:
        return {
            (view.lot(row.lot).code, _named(view, row.place), row.grams)
            for entry in _entries(done)
            for row in entry.postings
        }

    return house.house.ask(rows)


def _entries(done: Recorded | Entry) -> Sequence[Entry]:
    return (done,) if isinstance(done, Entry) else done.entries


def origins(house: BuiltHouse, code: str) -> dict[str, int]:
    """A lot's parents that count, with the grams of each; 0 is "in reach only"."""

    def rows(view: View) -> dict[str, int]:
        lot = view.lot_by_code(code)
        assert lot is not None
        grams: dict[str, int] = {}
        for edge in view.origins(lot.id):
            parent = view.lot(edge.parent).code
            grams[parent] = grams.get(parent, 0) + edge.grams
        return grams

    return house.house.ask(rows)


def late(house: BuiltHouse, code: str) -> set[str]:
    """The parents that are in a lot's reach because something was scanned or typed late."""

    def rows(view: View) -> set[str]:
        lot = view.lot_by_code(code)
        assert lot is not None
        return {view.lot(edge.parent).code for edge in view.origins(lot.id) if edge.late}

    return house.house.ask(rows)


def place(house: BuiltHouse, name: str) -> str:
    """A vessel's or container's place by its name; a place as it is."""

    def found(view: View) -> str:
        for kind in ("vessel", "drum"):
            for row in view.marked("record", f"{kind}/"):
                if isinstance(row.value, Mapping) and row.value.get("name") == name:
                    return row.subject
        return name

    return house.house.ask(found)


def standing(house: BuiltHouse, name: str) -> dict[str, int]:
    """What stands in a vessel or other place, 0 g included: code to grams."""
    where = place(house, name)
    return house.house.ask(lambda view: {row.lot.code: row.grams for row in view.standing(where)})


def holding(house: BuiltHouse, code: str) -> dict[str, tuple[int, int]]:
    """Where a lot has grams or pieces now, outside places included: (grams, pieces)."""

    def rows(view: View) -> dict[str, tuple[int, int]]:
        lot = view.lot_by_code(code)
        assert lot is not None
        return {
            _named(view, row.place): (row.grams, row.pieces)
            for row in view.holdings(lot.id)
            if row.grams or row.pieces
        }

    return house.house.ask(rows)


def grams_at(house: BuiltHouse, name: str) -> int:
    """The grams of all lots at one place, inside or outside."""
    return house.house.ask(
        lambda view: sum(row.grams for row in view.held_at(class_of(name)) if row.place == name)
    )


def attributes(house: BuiltHouse, code: str) -> Mapping[str, Json]:
    """What was frozen with a lot."""

    def found(view: View) -> Mapping[str, Json]:
        lot = view.lot_by_code(code)
        assert lot is not None
        return lot.attributes

    return house.house.ask(found)


def mark(house: BuiltHouse, subject: str, name: str) -> Any:
    """The latest fact of one name about a code or record."""

    def found(view: View) -> Any:
        row = view.mark(subject, name)
        return row.value if row else None

    return house.house.ask(found)


def effects(done: Recorded, name: str) -> list[list[Json]]:
    """The rows of one effect of what was recorded."""
    rows: list[list[Json]] = []
    for entry in done.entries:
        kept = entry.facts.get("effects", {})
        assert isinstance(kept, Mapping)
        found = kept.get(name, [])
        assert isinstance(found, list)
        rows += found
    return rows


def code_in(done: Recorded, letter: str) -> str:
    """The one code of a letter that was given."""
    (code,) = [code for code in done.given if code.startswith(letter)]
    return code
