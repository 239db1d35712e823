"""What labels lack by what markets ask: dates and lot marks."""

from datetime import date

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.label_marks import LabelWarning, label_warnings, lot_mark
from honeyledger.services.labelling import label_rows
from honeyledger.services.papers import JarLabel
from tests.support.books import code_in
from tests.support.houses import MINUTE_MS, BuiltHouse

YEAR_MIN = 366 * 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Creek")
    made.vessel("Tank")
    made.load("Creek", 100_000, "Tank")
    return made


def _jars(house: BuiltHouse, **record: str | int) -> str:
    house.do(Register("product", {"name": "Clover", "net_g": 500, **record}, key="clover"))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, 10))
    return code


def _by_date(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "lot_mark": "date"}))


def _warned(house: BuiltHouse, code: str) -> tuple[LabelWarning, ...]:
    return house.house.ask(lambda view: label_warnings(view, code, house.now_ms))


def _texts(house: BuiltHouse, code: str) -> list[str]:
    return [str(one.text) for one in _warned(house, code)]


def test_nothing_is_amiss_with_a_code_and_a_date(house: BuiltHouse) -> None:
    assert _warned(house, _jars(house, keeps_months=24)) == ()
    drum = house.drum("Tank", 10_000)
    assert _warned(house, drum) == ()


def test_a_day_alone_as_lot_mark_is_warned_of_where_two_lots_share_it(house: BuiltHouse) -> None:
    _by_date(house)
    first = _jars(house, keeps_months=24)
    assert _texts(house, first) == []
    second = _jars(house, keeps_months=24)
    (warned,) = _warned(house, second)
    assert str(warned.text) == (
        f"The day alone is the lot mark, and {first} shares it: a call-back takes both."
    )
    assert warned.source == "Directive 2011/91/EU, article 3"
    assert _texts(house, first) == [
        f"The day alone is the lot mark, and {second} shares it: a call-back takes both."
    ]
    house.now_ms += 25 * 60 * MINUTE_MS
    assert _texts(house, _jars(house, keeps_months=24)) == []


def test_what_stands_for_the_lot_is_the_code_or_the_day(house: BuiltHouse) -> None:
    def label(code: str) -> JarLabel:
        row = next(iter(house.house.ask(lambda view: list(label_rows(view, code)))))
        assert isinstance(row, JarLabel)
        return row

    code = _jars(house, best_before="Best before end 2030")
    assert (label(code).lot, label(code).best_before) == (code, "Best before end 2030")
    _by_date(house)
    assert label(code).lot == "24 07 2026"
    asked = house.house.ask(lambda view: lot_mark(view, code, date(2026, 1, 2)))
    assert asked == "02 01 2026"


def test_a_best_before_that_lacks_or_is_over(house: BuiltHouse) -> None:
    assert _texts(house, _jars(house)) == [
        "It has no best-before line: put how many months it keeps on record."
    ]
    year_only = _jars(house, keeps_months=18, best_before="Best before end 2027")
    assert _texts(house, year_only) == [
        "Its best-before line names a year only; up to 18 months the month is due."
    ]
    with_month = _jars(house, keeps_months=18, best_before="Best before end Jan 2028")
    assert _texts(house, with_month) == []
    soon = _jars(house, keeps_months=6)
    house.now_ms += YEAR_MIN * MINUTE_MS
    assert _texts(house, soon) == ["Its best before is over by now."]


def test_honey_older_than_its_jar_is_told(house: BuiltHouse) -> None:
    house.now_ms += YEAR_MIN * MINUTE_MS
    code = _jars(house, keeps_months=24)
    assert _texts(house, code) == [
        "Its best before counts from bottling, and its oldest honey is of 2026."
    ]
    assert [one.source for one in _warned(house, code)] == ["common practice, no source"]


def test_a_size_that_was_none_for_honey_is_told(house: BuiltHouse) -> None:
    code = _jars(house, keeps_months=24, for_markets="EU, Canada, United States", net_g=454)
    assert _texts(house, code) == ["454 g was no size for honey in jars there."]
    fine = {"for_markets": "EU; Canada; US", "net_g": 500}
    assert _texts(house, _jars(house, keeps_months=24, **fine)) == []
