"""What is told of wet honey, at the house's own limits."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.wetness import dry_first_over
from tests.support.houses import BuiltHouse

DRY = "Above 18 %: dry first, wet honey ferments."
# Source: Directive 2001/110/EC, annex II (S): moisture at most 20 % in general.
TOO_WET = (
    "Above 20 %: most kinds of honey may have 20 % at most in the European Union (Directive "
    "2001/110/EC, annex II), and it ferments. Dry it or blend it down; follow your local code."
)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    return house


@pytest.mark.parametrize(
    ("moisture", "told"),
    [(18_00, []), (18_10, [DRY]), (20_00, [DRY]), (20_10, [TOO_WET])],
)
def test_the_limits_belong_to_what_is_below_them(
    house: BuiltHouse, moisture: int, told: list[str]
) -> None:
    done = house.do(Receive((Line("Creek", 10),), gross_g=235_000, moisture=moisture))
    assert list(done.notes) == told
    again = house.do(Measure(done.codes[0], moisture=moisture))
    assert list(again.notes) == told


def test_a_house_may_set_its_own(house: BuiltHouse) -> None:
    record = {"name": "Test House", "zone": "UTC", "dry_first_permille": 175}
    house.do(Register("house", record))
    assert house.house.ask(dry_first_over) == 17_50
    pull, _ = house.pull("Creek", 100_000)
    assert list(house.do(Measure(pull, moisture=17_50)).notes) == []
    assert list(house.do(Measure(pull, moisture=17_60)).notes) == [DRY.replace("18 %", "17.5 %")]


@pytest.fixture
def filler(house: BuiltHouse) -> BuiltHouse:
    house.vessel("Tank 1")
    house.load("Creek", 400_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    return house


@pytest.mark.parametrize(
    ("moisture", "keeping"),
    [(18_00, ""), (18_10, "may ferment"), (19_10, "will likely ferment"), (20_10, "ferments")],
)
def test_bottling_tells_of_honey_of_a_class_that_ferments(
    filler: BuiltHouse, moisture: int, keeping: str
) -> None:
    """Source: Lochhead 1933, table 2, as a manual reprints it (S2): a word, never a refusal."""
    drum = filler.drum("Tank 1", 290_000)
    filler.do(Measure(drum, moisture=moisture))
    started = filler.do(ChangeOver(product="Clover", feed=drum))
    told = [
        f"{drum} has {moisture / 100:.1f} % of water: honey of its class {keeping} (Lochhead "
        "1933, seen at second hand: a guide). Have its yeast counted, dry it or blend it down; "
        "follow your local code."
    ]
    assert list(started.notes) == (told if keeping else [])
    assert list(filler.do(Bottle(started.given[0], 100)).notes) == (told if keeping else [])


def test_a_fill_nobody_read_is_as_wet_as_the_wettest_in_it(filler: BuiltHouse) -> None:
    for moisture in (17_00, 19_50):
        pull, tag = filler.pull("Creek", 100_000)
        filler.do(Measure(pull, moisture=moisture))
        filler.do(Load(tag, "Tank 1"))
    started = filler.do(ChangeOver(product="Clover", feed="Tank 1"))
    assert started.notes[0].startswith(f"{pull} has 19.5 % of water: honey of its class will ")
    fill = filler.do(Bottle(started.given[0], 100))
    assert " has 19.5 % of water: honey of its class will likely ferment" in fill.notes[0]


def test_a_change_of_feed_is_looked_at_and_going_on_is_not_told_twice(filler: BuiltHouse) -> None:
    dry, wet = filler.drum("Tank 1", 100_000), filler.drum("Tank 1", 100_000)
    filler.do(Measure(dry, moisture=17_00))
    filler.do(Measure(wet, moisture=18_60))
    lot = filler.do(ChangeOver(product="Clover", feed=dry)).given[0]
    assert filler.do(ChangeOver(bottling=lot, jars=20)).notes == ()
    assert wet in filler.do(ChangeOver(bottling=lot, jars=40, feed=wet)).notes[0]
    assert filler.do(ChangeOver(bottling=lot, jars=60)).notes == ()
