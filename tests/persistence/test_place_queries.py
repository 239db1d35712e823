from collections import defaultdict
from random import Random
from typing import Any

import pytest

from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.state import Event, Holding, Stay
from honeyledger.persistence.store import SqlStore
from tests.support.entries import MINUTE_MS, START_MS, Hand, write_season

VESSEL = "vessel/E26-0001-V"
FOREVER = START_MS * 2


def _at(minute: int) -> int:
    return START_MS + minute * MINUTE_MS


def test_what_stands_in_a_place(store: SqlStore) -> None:
    hand = write_season(store)
    with store.reading() as view:
        rows = [
            (row.lot.code, row.grams, row.pieces, row.since_ms) for row in view.standing(VESSEL)
        ]
        assert rows == [
            ("S26-0002-B", 40_000, 0, _at(3) - 5 * MINUTE_MS),
            ("T26-0001-T", 35_000, 0, _at(4)),
        ]
        assert view.standing("pallet/G26-0001-P") == []
        assert view.standing("nowhere") == []
    gone = [("T26-0001-T", VESSEL, -35_000), ("T26-0001-T", "difference", 35_000)]
    hand.write("empty", [], gone)
    with store.reading() as view:
        assert [row.grams for row in view.standing(VESSEL)] == [40_000, 0], "a heel of 0 g stays"


def test_a_lot_that_was_never_posted_there_stands_with_nothing(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("note", came=[["vessel/E26-0009-Z", "lot:T26-0001-T"]])
    with store.reading() as view:
        (row,) = view.standing("vessel/E26-0009-Z")
    assert (row.grams, row.pieces) == (0, 0)


def test_stays_that_had_not_ended_or_begun_since(store: SqlStore) -> None:
    hand = write_season(store)
    early, late, fill = (hand.lot(code) for code in ("S26-0001-A", "S26-0002-B", "T26-0001-T"))
    with store.reading() as view:
        stays = view.stays(VESSEL, _at(0))
        assert stays == [
            Stay(VESSEL, early, _at(3), _at(4), False),
            Stay(VESSEL, late, _at(3) - 5 * MINUTE_MS, -1, False),
            Stay(VESSEL, fill, _at(4), -1, False),
        ]
        assert [stay.lot for stay in view.stays(VESSEL, _at(4))] == [early, late, fill]
        assert [stay.lot for stay in view.stays(VESSEL, _at(5))] == [late, fill]
        assert [stay.lot for stay in view.stays(VESSEL, FOREVER)] == [late, fill]


def test_a_stay_that_begins_after_its_end_is_among_those_begun_since(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("load", came=[["vessel/Z", "lot:S26-0001-A"]], at_min=60)
    hand.write("late draw", washed=[["vessel/Z", "lot:S26-0001-A"]], at_min=30)
    with store.reading() as view:
        (stay,) = view.stays("vessel/Z", _at(50))
    assert (stay.since_ms, stay.until_ms, stay.by_wash) == (_at(60), _at(30), True)


def test_holdings_keep_rows_that_came_to_nothing_outside_the_house(store: SqlStore) -> None:
    hand = write_season(store)
    drum = hand.lot("D26-0001-D")
    with store.reading() as view:
        rows = view.holdings(drum)
        assert rows == [
            Holding("customer/C1", drum, 25_000, 0),
            Holding("difference", drum, -25_000, 0),
        ]
        assert view.holdings_of([drum]) == rows
        assert [row.lot for row in view.holdings_of([2, 1])] == sorted(
            row.lot for row in view.holdings_of([1, 2])
        )
        assert view.held_at("customer") == [Holding("customer/C1", drum, 25_000, 0)]
        assert view.held_at("drum") == []
        assert {row.place for row in view.held_at("difference")} == {"difference"}
        assert view.total_g() == 0
    back = [("D26-0001-D", "customer/C1", -25_000), ("D26-0001-D", "drum/E26-0002-W", 25_000)]
    hand.write("take back", [], back)
    with store.reading() as view:
        assert "customer/C1" not in {row.place for row in view.holdings_of([drum])}
        ever = view.holdings_of([drum], emptied=True)
        assert list(ever) == view.holdings(drum)
        assert Holding("customer/C1", drum, 0, 0) in ever


def test_on_hand_is_what_stands_inside(store: SqlStore) -> None:
    write_season(store)
    with store.reading() as view:
        rows = [(row.place, row.lot.code, row.grams) for row in view.on_hand()]
        assert rows == [(VESSEL, "S26-0002-B", 40_000), (VESSEL, "T26-0001-T", 35_000)]
        assert [row.lot.code for row in view.on_hand(["vessel"])] == ["S26-0002-B", "T26-0001-T"]
        assert view.on_hand(["drum", "customer"]) == []


def test_pieces_alone_are_on_hand(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("count", pieces=[["jars/shelf", "lot:D26-0001-D", 12]])
    with store.reading() as view:
        assert [(row.grams, row.pieces) for row in view.on_hand(["jars"])] == [(0, 12)]


def test_what_came_and_went(store: SqlStore) -> None:
    hand = write_season(store)
    early, late, fill = (hand.lot(code) for code in ("S26-0001-A", "S26-0002-B", "T26-0001-T"))
    # Its time may be off by five minutes; what counts is the latest it can have been.
    unsure = Event(VESSEL, late, _at(3) + 5 * MINUTE_MS, 5)
    with store.reading() as view:
        assert view.arrivals(VESSEL, 0) == [Event(VESSEL, early, _at(3), 3), unsure]
        assert view.arrivals(VESSEL, _at(3) + 1) == [unsure]
        assert view.draws(VESSEL, 0) == [Event(VESSEL, fill, _at(4), 4)]
        assert view.draws(VESSEL, _at(5)) == []
        assert view.last_touch(VESSEL) == Event(VESSEL, 0, unsure.at_ms, 5)
        assert view.last_touch("nowhere") is None


PLACES = ("vessel/A", "vessel/B")
LOTS = ("S26-0001-A", "S26-0002-B", "T26-0001-T", "D26-0001-D")


@pytest.mark.parametrize("seed", range(3))
def test_what_stays_tell_is_answered_as_what_has_rows(store: SqlStore, seed: int) -> None:
    """Whatever entries say in whatever order of time, some of them taken back again."""
    chance, hand = Random(seed), write_season(store)
    made: list[Entry] = []
    for _ in range(40):
        made.append(hand.write("some", **_some(chance, _standing(store, hand)), **_time(chance)))
        if chance.random() < 0.2:
            gone = made.pop()
            hand.write("reverse", reverses=gone.id)
    for place in PLACES:
        times = [0, *(_last_ms(entry) for entry in made)]
        with store.reading() as view:
            for since_ms in (*times, FOREVER):
                arrived = _said(made, "arrived", place, since_ms)
                assert list(view.arrivals(place, since_ms)) == arrived
                assert list(view.draws(place, since_ms)) == _said(made, "drawn", place, since_ms)
            touching = [entry for entry in made if _touches(entry, place)]
            last = max(touching, key=lambda entry: (_last_ms(entry), entry.id))
            assert view.last_touch(place) == Event(place, 0, _last_ms(last), last.id)
            first = next(entry for entry in made if [place] in rows_of(entry, "touched"))
            later = {entry.id for entry in touching if entry.id > first.id}
            assert later <= set(view.built_on(first.id))


def _standing(store: SqlStore, hand: Hand) -> dict[str, set[str]]:
    codes = {number: code for code, number in hand.ids.items()}
    with store.reading() as view:
        return {place: {codes[row.lot.id] for row in view.standing(place)} for place in PLACES}


def _some(chance: Random, standing: dict[str, set[str]]) -> dict[str, list[Any]]:
    """Lots come and go; what else happens there does so by chance."""
    said: dict[str, list[Any]] = defaultdict(list)
    for place, lots in standing.items():
        for code in LOTS:
            row = [place, f"lot:{code}"]
            if code in lots and chance.random() < 0.3:
                said[chance.choice(["left", "washed"])].append(row)
            elif code not in lots and chance.random() < 0.3:
                said["came"].append(row)
            for name in ("arrived", "drawn"):
                if chance.random() < 0.2:
                    said[name].append(row)
        if chance.random() < 0.5:
            said["touched"].append([place])
    return said


def _time(chance: Random) -> dict[str, int]:
    return {
        "at_min": chance.randrange(100, 130),
        "unsure_ms": chance.choice([0, 0, 5 * MINUTE_MS]),
    }


def _last_ms(entry: Entry) -> int:
    return entry.act.happened.at_ms + entry.act.unsure_ms


def _said(made: list[Entry], name: str, place: str, since_ms: int) -> list[Event]:
    found = [
        Event(place, int(str(lot)), _last_ms(entry), entry.id)
        for entry in made
        for where, lot in rows_of(entry, name)
        if where == place and _last_ms(entry) >= since_ms
    ]
    return sorted(found, key=lambda event: (event.at_ms, event.lot, event.entry))


def _touches(entry: Entry, place: str) -> bool:
    names = ("arrived", "drawn", "touched")
    return any(row[0] == place for name in names for row in rows_of(entry, name))
