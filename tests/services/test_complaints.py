"""Complaints as rows, with the trace of the jar they are about."""

from honeyledger.domain.codes import make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.complaints import complaint_rows, traces_of
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def test_newest_first_and_a_jar_is_traced_by_its_serial() -> None:
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank")
    house.vessel("Other")
    house.do(Register("house", {"name": "Test House", "jar_margin": 0, "margin_ms": 0}))
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.load("Creek", 100_000, "Tank")
    house.load("Hill", 100_000, "Other")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(ChangeOver(lot, feed="Other", jars=50))
    house.do(Bottle(lot, 100))
    plain = parse_code(lot)
    assert not hasattr(plain, "serial")
    jar = str(make_jar_code(plain, 7))  # type: ignore[arg-type]
    first = house.do(Complain(jar, "glass")).entries[0].id
    second = house.do(Complain(lot, "thin")).entries[0].id
    wrong = house.do(Complain(lot, "typed twice")).entries[0].id
    house.do(Reverse(wrong, "typed twice"))
    rows = house.house.ask(complaint_rows)
    assert [(row.number, row.jar, row.what) for row in rows] == [
        (second, "", "thin"),
        (first, jar, "glass"),
    ]
    assert rows == house.house.ask(lambda view: complaint_rows(view, lot))
    of_lot, of_jar = house.house.ask(lambda view: traces_of(view, rows))
    assert {one.name for one in of_lot.ancestors if one.share} == {"Creek", "Hill"}
    assert {one.name for one in of_jar.ancestors if one.share} == {"Creek"}
