from typing import Any

import pytest

from honeyledger.domain.refusals import BrokenRule
from honeyledger.persistence.short import short
from honeyledger.persistence.store import SqlStore
from honeyledger.persistence.tables import PROJECTIONS
from tests.support.entries import Hand, write_season

VESSEL = "vessel/E26-0001-V"


def _snapshot(store: SqlStore, *, without: tuple[str, ...] = ()) -> dict[str, list[Any]]:
    with store._engine.connect() as connection:
        return {
            table.name: sorted(tuple(row) for row in connection.execute(table.select()))
            for table in PROJECTIONS
            if table.name not in without
        }


def _move(grams: int) -> list[tuple[str, str, int]]:
    return [
        ("T26-0001-T", VESSEL, -grams),
        ("T26-0001-T", "vessel/E26-0003-U", grams),
    ]


def test_a_reversal_leaves_everything_as_it_was(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("prepare", [], _move(0)[:0], came=[["vessel/E26-0003-U", "lot:S26-0001-A"]])
    kept = ("reversal", "void_origin", "code_given", "last_number", "holding")
    before = _snapshot(store, without=kept)
    with store.reading() as view:
        stood = {place: view.standing(place) for place in (VESSEL, "vessel/E26-0003-U")}
    late = [("T26-0001-T", "S26-0002-B", 0)]
    wrong = hand.write(
        "transfer",
        [],
        _move(35_000),
        late,
        left=[[VESSEL, "lot:T26-0001-T"]],
        washed=[["vessel/E26-0003-U", "lot:S26-0001-A"]],
        came=[["vessel/E26-0003-U", "lot:T26-0001-T"]],
        arrived=[["vessel/E26-0003-U", "lot:T26-0001-T"]],
        drawn=[[VESSEL, "lot:T26-0001-T"]],
        touched=[[VESSEL], ["vessel/E26-0003-U"]],
        marks=[["T26-0001-T", "note", "wrong"]],
        voids=[[4, 1]],
    )
    assert _snapshot(store, without=kept) != before
    hand.write("reverse", [], _move(-35_000), reverses=wrong.id)
    assert _snapshot(store, without=kept) == before
    with store.reading() as view:
        assert {place: view.standing(place) for place in stood} == stood
        assert view.reversed_by(wrong.id) == wrong.id + 1
        fill = hand.lot("T26-0001-T")
        assert [edge.entry for edge in view.origins(fill)] == [4], "the late row is void again"
    assert all(finding.holds for finding in store.audit())


def test_a_lot_may_leave_a_place_and_come_back_at_once(store: SqlStore) -> None:
    hand = write_season(store)
    row = [[VESSEL, "lot:T26-0001-T"]]
    again = hand.write("again", left=row, came=row)
    with store.reading() as view:
        assert [stay.until_ms for stay in view.stays(VESSEL, 0) if stay.lot == 3].count(-1) == 1
    hand.write("reverse", reverses=again.id)
    with store.reading() as view:
        assert len([stay for stay in view.stays(VESSEL, 0) if stay.lot == 3]) == 1
    assert all(finding.holds for finding in store.audit())


def test_what_cannot_be_reversed(store: SqlStore) -> None:
    hand = write_season(store)
    with pytest.raises(BrokenRule, match="entry 99 cannot be reversed"):
        hand.write("reverse", reverses=99)
    with pytest.raises(BrokenRule, match="entry 7 cannot be reversed"):
        hand.write("reverse", reverses=7)  # it is already
    with pytest.raises(BrokenRule, match="entry 8 cannot be reversed"):
        hand.write("reverse", reverses=8)  # it is a reversal
    with pytest.raises(BrokenRule, match="something later builds on it"):
        hand.write("reverse", reverses=3)  # its stay was ended by a fill


@pytest.mark.parametrize("kind", ["came", "left"])
def test_what_a_stay_does_not_tell_any_more_cannot_be_taken_back(
    store: SqlStore, kind: str
) -> None:
    hand = write_season(store)
    place = {"came": "vessel/E26-0003-U", "left": VESSEL}[kind]
    made = hand.write("move", **{kind: [[place, "lot:T26-0001-T"]]}, touched=[[place]])
    with store._engine.begin() as connection:
        connection.exec_driver_sql(f"UPDATE stay SET told = 0 WHERE place = '{short(place)}'")
    with pytest.raises(BrokenRule, match="something later builds on it"):
        hand.write("reverse", reverses=made.id)


def test_a_lot_stands_in_a_place_once(store: SqlStore) -> None:
    hand = write_season(store)
    with pytest.raises(BrokenRule, match=r"stay"):
        hand.write("again", came=[[VESSEL, "lot:T26-0001-T"]])


def test_a_code_is_never_given_twice(store: SqlStore) -> None:
    hand = Hand(store)
    hand.write("register", codes=[["Y26-0014-K"]])
    with pytest.raises(BrokenRule, match="code"):
        hand.write("register", codes=[["Y26-0014-K"]])
