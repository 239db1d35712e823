"""Traces as they are asked for: a lot, a jar by its serial, a yard by name, days, customers."""

import pytest

from honeyledger.domain.codes import JarCode, make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import SendBack
from honeyledger.ledger.verbs.corrections import Amend, Narrow
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back, trace_forward, trace_mixture
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """A tank, yards A to C, a customer, a supplier and a jar; no reach margin."""
    return _house(margin_min=0)


def _house(margin_min: int) -> BuiltHouse:
    house = BuiltHouse(margin_min)
    for name in "ABC":
        house.yard(name)
    house.vessel("Tank")
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.do(Register("supplier", {"name": "Trader"}))
    return house


def _jar(lot: str, serial: int) -> str:
    code = parse_code(lot)
    assert not isinstance(code, JarCode)
    return str(make_jar_code(code, serial))


def _bottled(house: BuiltHouse) -> str:
    """300 jars from the heel of A, then 300 after B was poured on it: two segments."""
    house.load("A", 400_000, "Tank")
    lot = house.do(ChangeOver(product="Jar", feed="Tank")).given[0]
    house.do(ChangeOver(bottling=lot, jars=300))
    house.load("B", 400_000, "Tank")
    house.do(Bottle(lot, 600))
    return lot


def test_a_pull_is_its_own_first_ancestor(house: BuiltHouse) -> None:
    code, _ = house.pull("A", 100_000)
    trace = house.back(code)
    (row,) = trace.ancestors
    assert (row.kind, row.name, row.share, row.grams, row.how) == (
        *("yard", "A", 1.0, 100_000, ("grams",)),
    )
    assert not row.only_through_heel
    assert [lot.code for lot in trace.lots] == [code]
    assert (trace.ribbons, trace.made_g, trace.reach_complete) == ((), 100_000, True)


def test_a_jar_is_of_the_fill_that_ran_when_it_was_filled(house: BuiltHouse) -> None:
    lot = _bottled(house)
    first, last = _jar(lot, 1), _jar(lot, 600)
    assert house.shares(first) == {"A": 1.0}
    assert house.shares(last) == pytest.approx({"A": 250 / 650, "B": 400 / 650}, abs=1e-12)
    assert house.back(first).made_g == 500
    assert sum(row.grams for row in house.back(last).ancestors) == 500
    assert house.back(first).code == first


def test_a_jar_within_the_margin_is_in_equal_parts_of_both_fills() -> None:
    house = _house(margin_min=60)
    house.wait(24 * 60)
    house.load("A", 400_000, "Tank")
    house.wait(120)
    lot = house.do(ChangeOver(product="Jar", feed="Tank")).given[0]
    house.do(ChangeOver(bottling=lot, jars=300))
    house.wait(120)
    house.load("B", 400_000, "Tank")
    house.wait(120)
    house.do(Bottle(lot, 600))
    trace = house.back(_jar(lot, 301 - 24))
    rows = {row.name: row for row in trace.ancestors}
    assert rows["A"].share == pytest.approx((1 + 250 / 650) / 2, abs=1e-12)
    assert rows["B"].how == ("margin",)
    assert "grams" in rows["A"].how
    assert [weight for _, weight in trace.starts] == [0.5, 0.5]
    outside = {row.name: row.share for row in house.back(_jar(lot, 301 - 25)).ancestors}
    assert outside == {"A": 1.0}


def test_a_serial_the_lot_never_had_is_refused(house: BuiltHouse) -> None:
    lot = _bottled(house)
    assert refused(lambda: house.back(_jar(lot, 601))) == (
        f"Lot {lot} has 600 jars, so there is no serial 00601. Scan it again."
    )


def test_a_misread_code_is_refused_with_the_near_ones(house: BuiltHouse) -> None:
    code, _ = house.pull("A", 100_000)
    wrong = code[:-1] + ("0" if code[-1] != "0" else "2")
    for ask in (house.back, house.forward):
        assert f"Was it {code}" in refused(lambda ask=ask: ask(wrong))


def test_honey_nobody_can_name_leaves_the_reach_incomplete(house: BuiltHouse) -> None:
    house.load("A", 50_000, "Tank")
    drum = house.drum("Tank", 150_000)
    trace = house.back(drum)
    assert not trace.reach_complete
    unknown = next(row for row in trace.ancestors if row.kind == "unknown")
    assert unknown.name == "source not known"
    assert unknown.code.startswith("S")
    assert unknown.share == pytest.approx(2 / 3, abs=1e-12)


def test_a_yard_amended_stays_in_reach_until_it_is_narrowed(house: BuiltHouse) -> None:
    pull = house.load("A", 100_000, "Tank")
    drum = house.drum("Tank", 100_000)
    house.do(Amend(pull, "read off the wrong sheet", yard="B"))
    rows = {row.name: (row.share, row.how) for row in house.back(drum).ancestors}
    assert rows == {"A": (0.0, ("amended",)), "B": (1.0, ("grams", "amended"))}
    house.do(Narrow(pull, "the driver says so", place="A"))
    assert house.shares(drum) == {"B": 1.0}


def test_what_is_drawn_of_a_trace_adds_up_and_can_be_left_out(house: BuiltHouse) -> None:
    lot = _bottled(house)
    trace = house.back(lot)
    from_yards_g = sum(ribbon.grams for ribbon in trace.sources)
    into_lot_g = sum(ribbon.grams for ribbon in trace.ribbons if ribbon.child == trace.lot)
    assert from_yards_g == pytest.approx(trace.made_g)
    assert into_lot_g == pytest.approx(trace.made_g)
    assert {(ribbon.heel, ribbon.late) for ribbon in trace.ribbons} == {
        *((False, False), (True, False)),
    }
    bare = house.house.ask(lambda view: trace_back(view, lot, ribbons=False))
    assert (bare.ribbons, bare.sources) == ((), ())
    assert bare.ancestors == trace.ancestors
    assert bare.lots == trace.lots


def test_forward_from_a_yard_by_name_or_code_to_customers_and_stock(house: BuiltHouse) -> None:
    lot = _bottled(house)
    house.do(Dispatch("Shop", (DispatchLine(lot, jars=100),)))
    by_name = house.forward("A")
    assert by_name == house.forward(by_name.code)
    (shop,) = by_name.customers
    assert (shop.code, shop.name, shop.lots) == ("shop", "Shop", (lot,))
    assert (shop.grams, shop.jars) == (50_000, 100)
    on_hand = {(row.place, row.lot): (row.grams, row.pieces) for row in by_name.on_hand}
    assert on_hand["jars", lot] == (250_000, 500)
    assert by_name.on_hand_g == 250_000 + 500_000
    share = {row.code: row.share for row in by_name.lots}[lot]
    assert share == pytest.approx((300 + 300 * 250 / 650) / 600, abs=1e-12)


def test_forward_over_a_span_of_days_takes_the_pulls_of_those_days(house: BuiltHouse) -> None:
    codes = []
    for day in ("2026-07-01", "2026-07-08", "2026-07-15"):
        facts = Receive((Line("A", 10, pulled=day),), gross_g=160_000, tare_g=0)
        codes.append(house.do(facts).codes[0])

    def reached(*days: str) -> list[str]:
        trace = house.house.ask(lambda view: trace_forward(view, "A", *days))
        return [row.code for row in trace.lots]

    assert reached() == codes
    assert reached("2026-07-08") == codes[1:]
    assert reached("", "2026-07-08") == codes[:2]
    assert reached("2026-07-08", "2026-07-08") == codes[1:2]


def test_forward_from_a_supplier_and_to_the_farm_gate(house: BuiltHouse) -> None:
    drum = house.buy("Trader", 290_000)
    house.do(Dispatch("gate", (DispatchLine(drum),)))
    trace = house.forward("Trader")
    assert trace.code == "trader"
    (gate,) = trace.customers
    assert (gate.code, gate.name) == ("2026-07-24", "farm gate, 24 Jul 2026")
    assert (gate.lots, gate.grams, trace.on_hand) == ((drum,), 290_000, ())


def test_a_yard_of_which_a_lot_is_half_is_traced_forward_by_that_half(house: BuiltHouse) -> None:
    house.load("A", 50_000, "Tank")
    unknown = next(
        row.code for row in house.back(house.drum("Tank", 150_000)).ancestors if row.kind != "yard"
    )
    house.pull("B", 100_000)
    _, tag = house.pull("C", 100_000)
    house.do(Amend(unknown, "the pallet was found", pallet=tag))
    rows = {row.code: row.share for row in house.forward("C").lots}
    assert rows[unknown] == 1.0
    assert {row.name for row in house.back(unknown).ancestors if row.share} == {"C"}


def test_late_loads_say_that_they_were_typed_late(house: BuiltHouse) -> None:
    house.load("A", 300_000, "Tank")
    _, tag = house.pull("B", 100_000)
    pulled_min = (house.now_ms - BuiltHouse(0).now_ms) // 60_000 + 7
    house.wait(120)
    drum = house.drum("Tank", 290_000)
    house.wait(120)
    house.do(Load(tag, "Tank"), at_min=pulled_min + 1)
    rows = {row.name: (row.share, row.how) for row in house.back(drum).ancestors}
    assert rows == {"A": (1.0, ("grams",)), "B": (0.0, ("late",))}


def test_a_mixture_not_made_yet_comes_from_where_it_will_once_it_is(house: BuiltHouse) -> None:
    house.load("A", 100_000, "Tank")
    house.drum("Tank", 100_000)
    house.load("B", 150_000, "Tank")
    house.load("C", 50_000, "Tank")
    tank = house.house.ask(lambda view: view.marked("record", "vessel/"))[0].subject

    def before() -> list[tuple[str, float, int]]:
        def question(view: View) -> list[tuple[str, float, int]]:
            standing = {row.lot.id: row.grams for row in view.standing(tank)}
            trace = trace_mixture(view, standing)
            assert (trace.code, trace.made_g, trace.ribbons) == ("", 200_000, ())
            return [(row.name, row.share, row.grams) for row in trace.ancestors]

        return house.house.ask(question)

    expected = before()
    assert expected == [("B", 0.75, 150_000), ("C", 0.25, 50_000), ("A", 0.0, 0)]
    drum = house.back(house.drum("Tank", 200_000))
    assert [(row.name, row.share, row.grams) for row in drum.ancestors] == expected


def test_a_purchase_that_was_sent_back_was_not_amended(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "Ridge"}))
    bought = house.buy("Ridge", 290_000)
    house.do(SendBack((bought,), "too wet"))
    (row,) = house.back(bought).ancestors
    assert (row.name, row.share, row.how) == ("Ridge", 1.0, ("grams",))
