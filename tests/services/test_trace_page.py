"""A trace with what a page or a paper shows beside it."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Treat
from honeyledger.persistence.statements import Row, Statement
from honeyledger.services.trace_page import ForwardPage, TracePage, forward_page, trace_page
from tests.support.houses import BuiltHouse


def _back(built: BuiltHouse, text: str) -> TracePage:
    return built.house.ask(lambda view: trace_page(view, text))


def _forward(built: BuiltHouse, text: str) -> ForwardPage:
    return built.house.ask(lambda view: forward_page(view, text))


def _drum() -> tuple[BuiltHouse, str, str]:
    """A drum of one yard: the house, the pull, the drum."""
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    yard = built.yard("Mill Lane", place="NE 22", forage="clover")
    pull = built.load(yard, 300_000, tank)
    return built, pull, built.drum(tank, 280_000)


def test_a_first_ancestor_has_its_place_forage_and_days() -> None:
    built, _, drum = _drum()
    (line,) = _back(built, drum).yards
    assert (line.row.name, line.row.grams) == ("Mill Lane", 280_000)
    assert (line.place, line.forage, line.pulled) == ("NE 22", "clover", ("2026-07-24",))


def test_a_yard_comes_with_its_treatments_the_newest_first() -> None:
    built, _, drum = _drum()
    assert _back(built, drum).yards[0].treated == ()
    for product, day in (("oxalic acid", "2026-04-14"), ("formic acid", "2026-05-20")):
        built.do(Treat("Mill Lane", product, first_day=day, last_day=day, clear_day=day))
    assert _back(built, drum).yards[0].treated == (
        ("formic acid", "2026-05-20"),
        ("oxalic acid", "2026-04-14"),
    )


def test_each_lot_has_its_mass_day_vessel_and_reading() -> None:
    built, pull, drum = _drum()
    built.do(Measure(drum, colour=340))
    page = _back(built, drum)
    by_kind = {lot.kind: lot for lot in page.lots}
    assert by_kind["S"].code == pull
    assert by_kind["T"].vessel == "Tank 1"
    assert (by_kind["D"].grams, by_kind["D"].colour) == (280_000, 340)
    assert {lot.day for lot in page.lots} == {"2026-07-24"} == {page.day}
    assert not page.is_jar
    assert page.entries == built.house.ask(lambda view: view.head().entry)


def test_holds_that_reach_it_are_said() -> None:
    built, _, drum = _drum()
    assert _back(built, drum).holds == ()
    built.do(PutOnHold(drum, "lab result awaited"))
    (words,) = _back(built, drum).holds
    assert "lab result awaited" in words


def test_honey_of_unknown_source_has_no_record_and_no_place() -> None:
    built = BuiltHouse()
    done = built.do(Fill(built.vessel("Tank 1"), Weight(net_g=1_000)))
    page = _back(built, next(code for code in done.codes if code[0] == "D"))
    assert not page.trace.reach_complete
    assert [(line.row.name, line.place) for line in page.yards] == [("source not known", "")]


def test_forward_by_code_by_name_and_by_lot() -> None:
    built, pull, drum = _drum()
    built.do(Register("customer", {"name": "Corner Shop"}))
    built.do(Dispatch("Corner Shop", (DispatchLine(drum),)))
    by_name = _forward(built, "mill lane")
    assert by_name == _forward(built, by_name.trace.code)
    assert (by_name.name, by_name.is_source) == ("Mill Lane", True)
    assert [one.name for one in by_name.trace.customers] == ["Corner Shop"]
    assert set(by_name.places.values()) == {"Tank 1"}
    by_lot = _forward(built, pull)
    assert (by_lot.name, by_lot.is_source) == (pull, False)


def test_forward_the_traced_honey_alone_is_counted_for_drawing() -> None:
    built, pull, drum = _drum()
    built.do(Register("customer", {"name": "Corner Shop"}))
    built.do(Dispatch("Corner Shop", (DispatchLine(drum),)))
    page = _forward(built, "mill lane")
    assert page.whole_g == 300_000
    assert {lot.kind: lot.grams for lot in page.lots} == {"S": 300_000, "T": 300_000, "D": 280_000}
    assert {(end.name, end.grams) for end in page.ends} == {("Corner Shop", 280_000), ("", 20_000)}
    assert [(ribbon.grams, ribbon.heel) for ribbon in page.trace.ribbons] == [
        (300_000, False),
        (280_000, False),
    ]
    assert page.trace.starts == ((page.lots[0].id, 1.0),)
    head = built.house.ask(lambda view: view.head())
    assert (page.entries, page.digest) == (head.entry, head.digest)
    assert _back(built, pull).digest == head.digest


@pytest.mark.parametrize("page", [trace_page, forward_page])
def test_a_code_that_is_near_is_offered(page: object) -> None:
    built, _, drum = _drum()
    wrong = drum[:-1] + ("X" if drum[-1] != "X" else "Y")
    with pytest.raises(Refusal) as caught:
        built.house.ask(lambda view: page(view, wrong))  # type: ignore[operator]
    assert drum in caught.value.offers


def test_a_page_asks_no_more_of_many_yards_than_of_one(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[Row] = []
    run = Statement.run

    def counted(statement: Statement, cursor: object, engine: str, values: Row) -> None:
        asked.append(values)
        run(statement, cursor, engine, values)

    monkeypatch.setattr(Statement, "run", counted)

    def questions(yards: int) -> int:
        built = BuiltHouse()
        built.vessel("Tank 1")
        for number in range(yards):
            built.load(built.yard(f"Mill Lane {number}"), 100_000, "Tank 1")
        drum = built.drum("Tank 1", yards * 90_000)
        built.do(Measure(drum, colour=340))
        asked.clear()
        page = _back(built, drum)
        assert len(page.yards) == yards
        return len(asked)

    assert questions(9) == questions(1)
