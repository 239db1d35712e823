"""What the card of a vessel says of the blends made in it."""

from honeyledger.desktop.models.lot_card import LotCardFacts
from honeyledger.desktop.stations.card.blend_rows import MOST
from honeyledger.desktop.stations.card.rows import facts_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.measuring import Measure
from tests.support.houses import BuiltHouse


def _house() -> tuple[BuiltHouse, str, str, str]:
    """A house, its blend tank, and two drums of one yard."""
    house = BuiltHouse()
    house.vessel("Tank")
    blend_tank = house.vessel("Blend tank")
    house.load(house.yard("Creek"), 600_000, "Tank")
    return house, blend_tank, house.drum("Tank", 290_000), house.drum("Tank", 290_000)


def _facts(house: BuiltHouse, code: str) -> LotCardFacts:
    return house.house.ask(lambda view: facts_of(view, code, house.now_ms, "kg"))


def test_a_blend_is_told_part_by_part_with_the_moisture_that_makes() -> None:
    """60 kg of 17.2 % and 40 kg of 19.4 % are 18.08 %, by hand."""
    house, tank, first, second = _house()
    for code, moisture in ((first, 1_720), (second, 1_940)):
        house.do(Measure(code, moisture=moisture))
    parts = (
        Portion(first, Weight(net_g=60_000), planned_g=59_000),
        Portion(second, Weight(net_g=40_000)),
    )
    house.do(Blend("Blend tank", parts))
    (blend,) = _facts(house, tank).blends
    assert blend.value == "100.0 kg, +1.0 kg against the plan"
    assert blend.notes == (
        f"{first} 60.0 kg (60.0 %)",
        f"{second} 40.0 kg (40.0 %)",
        "Moisture by its parts: 18.08 %.",
    )


def test_the_newest_come_first_and_what_was_not_read_is_said() -> None:
    house, tank, first, second = _house()
    for grams in (10_000, 20_000, 30_000, 40_000):
        house.do(Blend("Blend tank", (Portion(first, Weight(net_g=grams)),)))
    facts = _facts(house, tank)
    assert [one.value for one in facts.blends] == ["40.0 kg", "30.0 kg", "20.0 kg"]
    assert len(facts.blends) == MOST
    assert facts.blends[0].notes[-1] == "Moisture: not every part was read."
    assert _facts(house, second).blends == ()


def test_what_was_read_of_it_since_is_told_with_the_lots() -> None:
    house, tank, first, _ = _house()
    house.do(Measure(first, moisture=1_800))
    house.do(Blend("Blend tank", (Portion(first, Weight(net_g=100_000)),)))
    drum = house.drum("Blend tank", 50_000)
    house.do(Measure(drum, moisture=1_790))
    facts = _facts(house, tank)
    assert facts.blends[0].notes[1:] == (
        "Moisture by its parts: 18.00 %.",
        f"Read since: 17.90 % ({drum}).",
    )
