"""Jars scraped back go into a vessel again, with all their fills behind them."""

import pytest

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    code_in,
    grams_at,
    holding,
    late,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> tuple[BuiltHouse, str]:
    """100 jars of Creek on the shelf, Hill in Tank 2."""
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.load("Creek", 300_000, "Tank 1")
    house.load("Hill", 300_000, "Tank 2")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 100))
    return house, lot


def test_the_jar_lot_itself_stands_in_the_vessel() -> None:
    house, lot = _house()
    done = house.do(Fill(lot, into="Tank 2", jars=40))
    assert postings(house, done) == {(lot, "jars", -20_000), (lot, "Tank 2", 20_000)}
    assert holding(house, lot) == {"jars": (30_000, 60), "Tank 2": (20_000, 0)}
    drum = house.drum("Tank 2", 160_000)
    assert house.shares(drum) == pytest.approx({"Creek": 1 / 16, "Hill": 15 / 16})


def test_what_clings_in_the_jars_is_weighing_difference() -> None:
    house, lot = _house()
    house.do(Fill(lot, Weight(net_g=49_200), into="Tank 2", jars=100))
    assert holding(house, lot) == {"Tank 2": (49_200, 0), "difference": (800, 0)}
    assert standing(house, "jars") == {}
    assert grams_at(house, "difference") == 800


def test_a_jar_scanned_means_its_lot() -> None:
    house, lot = _house()
    code = parse_code(lot)
    assert isinstance(code, Code)
    house.do(Fill(str(make_jar_code(code, 7)), into="Tank 2", jars=1))
    assert holding(house, lot)["jars"] == (49_500, 99)


def test_within_the_margin_of_their_own_filling_they_close_a_circle() -> None:
    house, lot = _house(margin_min=60)
    house.do(Fill(lot, into="Tank 1", jars=10))
    (fill,) = (code for code in standing(house, "Tank 1") if code[0] == "T")
    assert late(house, fill) == {lot}
    assert house.shares(house.drum("Tank 1", 100_000)) == {"Creek": 1.0}


def test_scraping_back_is_reversed() -> None:
    house, lot = _house()
    done = house.do(Fill(lot, Weight(net_g=49_200), into="Tank 2", jars=100))
    house.do(Reverse(done.entries[0].id, "other lot"))
    assert holding(house, lot) == {"jars": (50_000, 100)}


def test_what_scraping_back_refuses() -> None:
    house, lot = _house()
    say = f"Say how many jars of {lot} are scraped back, and into which vessel."
    assert turned_down(house, Fill(lot, jars=10)) == say
    assert turned_down(house, Fill(lot, into="Tank 2")) == say
    assert refusal_of(house, Fill(lot, jars=10)).field == "into"
    assert refusal_of(house, Fill(lot, into="Tank 2")).field == "jars"
    assert turned_down(house, Fill(lot, into="Tank 2", jars=101)) == (
        f"There are 100 jars of {lot} here, not 101. Count again."
    )
    house.do(PutOnHold(lot, "glass found"))
    assert turned_down(house, Fill(lot, into="Tank 2", jars=10)) == (
        f"{lot} is on hold through {lot}: glass found. It can go on only if a named person says "
        "why."
    )
    other, gone = _house()
    other.do(Register("customer", {"name": "Packer"}))
    other.do(Dispatch("Packer", (DispatchLine(gone),)))
    assert turned_down(other, Fill(gone, into="Tank 2", jars=1)) == (
        f"{gone} is no longer in the house: nothing of it is left."
    )
