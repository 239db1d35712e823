"""Rehearsals: what is drawn, how long one took, when the next is due."""

from datetime import date

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.recalls import DRILL, CloseRecall, OpenRecall
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.drills import DrillDue, draw, drill_due, drills, jar_lots
from tests.support.books import code_in
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


def bottled() -> tuple[BuiltHouse, str]:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.do(Register("operator", {"name": "Ada Quill"}))
    house.load("Creek", 100_000, "Tank 1")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 100))
    return house, lot


def test_a_drill_is_timed_and_kept() -> None:
    house, lot = bottled()
    ask = house.house.ask
    assert ask(lambda view: drill_due(view, house.now_ms)) == DrillDue(None, is_due=False)
    house.do(Dispatch("Shop", (DispatchLine(lot, 10),)))
    # Once honey has gone to somebody, a house that never rehearsed should.
    assert ask(lambda view: drill_due(view, house.now_ms)) == DrillDue(None, is_due=True)
    assert ask(jar_lots) == (lot,)
    assert [ask(lambda view, n=n: draw(view, n)) for n in (0, 1, 7)] == [lot] * 3  # type: ignore[misc]
    code = house.do(OpenRecall(f"drill on {lot}", (lot,), sort=DRILL)).given[0]
    (runs,) = ask(lambda view: drills(view, house.now_ms))
    assert (runs.minutes, runs.lots, runs.customers, runs.by_hand) == (None, 1, 1, "")
    assert runs.accounted == 10_000
    house.wait(12)
    house.do(CloseRecall(code, "two phone numbers"))
    (done,) = ask(lambda view: drills(view, house.now_ms))
    assert done.minutes is not None
    assert 12 <= done.minutes <= 14
    assert done.by_hand == "two phone numbers"
    due = ask(lambda view: drill_due(view, house.now_ms))
    assert due.day == date.fromordinal(done_day(house) + 365)
    assert not due.is_due
    house.wait(366 * DAY_MIN)
    assert ask(lambda view: drill_due(view, house.now_ms)).is_due


def done_day(house: BuiltHouse) -> int:
    return date(1970, 1, 1).toordinal() + house.now_ms // 86_400_000


def test_there_is_nothing_to_draw() -> None:
    house = BuiltHouse()
    with pytest.raises(Refusal) as refused:
        house.house.ask(lambda view: draw(view, 3))
    assert str(refused.value) == (
        "No jars were bottled yet. Name a lot to rehearse with, such as a drum."
    )
