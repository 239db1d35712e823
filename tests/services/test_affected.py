"""What goes with a lot that is called back: where each gram is, who has it, what is missing."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.trace_rows import ForwardTrace
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.ledger.verbs.floor import CloseRun, Heel, OpenRun
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.affected import (
    Affected,
    SentNote,
    accounted_for,
    affected,
    lot_accounted_for,
)
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_forward
from tests.support.houses import BuiltHouse


def _asked(built: BuiltHouse, text: str) -> Affected:
    return built.house.ask(lambda view: affected(view, text))


@pytest.fixture
def built() -> BuiltHouse:
    made = BuiltHouse()
    made.do(Register("customer", {"name": "Corner Shop"}))
    made.do(Register("customer", {"name": "Mill Bakery"}))
    return made


def test_each_gram_stands_once_where_it_is_now(built: BuiltHouse) -> None:
    tank, yard = built.vessel("Tank 1"), built.yard("Long Field")
    built.load(yard, 600_000, tank)
    first, second = built.drum(tank, 200_000), built.drum(tank, 300_000)
    built.do(Dispatch("Corner Shop", (DispatchLine(first),)))
    found = _asked(built, "Long Field")
    assert (found.code, found.name, found.is_source) == (yard, "Long Field", True)
    assert (found.here_g, found.sent_g, found.missing_g) == (400_000, 200_000, 0)
    assert (found.free_g, found.accounted) == (400_000, 1.0)
    rows = {row.code: row for row in found.lots}
    assert rows[second].here_g == 300_000
    assert rows[second].where == f"drum {second}"
    assert rows[first].sent_g == 200_000
    assert rows[first].where == ""
    assert found.lots[0].here_g, "what can still be held comes first"
    assert (found.entries, found.house) == (
        built.house.ask(lambda v: v.head().entry),
        "Test House",
    )


def test_who_has_it_and_the_paper_it_went_by(built: BuiltHouse) -> None:
    tank = built.vessel("Tank 1")
    built.load(built.yard("Long Field"), 600_000, tank)
    drums = [built.drum(tank, 100_000) for _ in range(4)]
    notes = [
        built.do(Dispatch(who, tuple(DispatchLine(code) for code in codes))).given[0]
        for who, codes in (("Corner Shop", drums[:1]), ("Mill Bakery", drums[1:3]))
    ]
    wrong = built.do(Dispatch("Corner Shop", (DispatchLine(drums[3]),)))
    built.do(Reverse(wrong.entries[0].id, "not sent"))
    bakery, shop = _asked(built, "Long Field").consignees
    assert (bakery.name, bakery.grams, bakery.lots) == ("Mill Bakery", 200_000, tuple(drums[1:3]))
    assert bakery.notes == (SentNote(notes[1], "2026-07-24"),)
    assert shop.notes == (SentNote(notes[0], "2026-07-24"),)
    (one,) = _asked(built, drums[0]).consignees
    assert one.name == "Corner Shop"


def test_what_is_held_is_not_free(built: BuiltHouse) -> None:
    tank, other = built.vessel("Tank 1"), built.vessel("Tank 2")
    built.load(built.yard("Long Field"), 300_000, tank)
    built.load(built.yard("Mill Lane"), 300_000, other)
    drum = built.drum(tank, 300_000)
    free = built.drum(other, 300_000)
    built.do(PutOnHold(drum, "glass"))
    assert _asked(built, drum).free_g == 0
    assert _asked(built, free).free_g == 300_000


def test_what_the_scale_misses_is_not_accounted_for(built: BuiltHouse) -> None:
    tank = built.vessel("Tank 1")
    built.load(built.yard("Long Field"), 300_000, tank)
    drum = built.drum(tank, 300_000)
    built.do(Reweigh(drum, Weight(net_g=294_000)))
    found = _asked(built, drum)
    assert (found.missing_g, found.run_g) == (6_000, 0)
    assert found.accounted == pytest.approx(0.98)

    def asked(view: View) -> tuple[float, float]:
        trace: ForwardTrace = trace_forward(view, drum)
        lot = view.lot_by_code(drum)
        assert lot is not None
        return accounted_for(view, trace), lot_accounted_for(view, lot)

    assert built.house.ask(asked) == (pytest.approx(0.98), pytest.approx(0.98))


def test_what_a_run_was_off_by_is_told_apart(built: BuiltHouse) -> None:
    line = built.vessel("Line 1", sort="line")
    tank = built.vessel("Tank 1", fed_by=line)
    run = built.do(OpenRun(line, tank)).given[0]
    built.load(built.yard("Long Field"), 300_000, line, run=run)
    built.drum(tank, 200_000, run=run)
    built.do(CloseRun(run, (Heel(tank, 90_000),)))
    found = _asked(built, "Long Field")
    assert found.missing_g == found.run_g == 10_000
    assert found.accounted == pytest.approx(1 - 10_000 / 300_000)


def test_how_far_it_goes_if_the_cause_is_further_up(built: BuiltHouse) -> None:
    tank = built.vessel("Tank 1")
    built.load(built.yard("Long Field"), 300_000, tank)
    drums = [built.drum(tank, 100_000) for _ in range(3)]
    found = _asked(built, drums[2])
    assert len(found.lots) == 1
    assert found.wider == len(_asked(built, "Long Field").lots) == 5


def test_a_code_there_is_not_is_refused(built: BuiltHouse) -> None:
    with pytest.raises(Refusal):
        _asked(built, "D26-9999-X")
