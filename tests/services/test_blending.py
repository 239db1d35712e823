"""The sheet of a blend: planned against weighed, and the moisture its parts come to."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.blending import BlendsOf, blends_of, newest_blends
from tests.support.houses import BuiltHouse


def _house() -> tuple[BuiltHouse, str, str]:
    house = BuiltHouse()
    house.yard("Creek")
    for name in ("Tank", "Blend tank"):
        house.vessel(name)
    house.do(Register("supplier", {"name": "Spice Trade"}))
    house.load("Creek", 600_000, "Tank")
    drums = house.drum("Tank", 290_000), house.drum("Tank", 290_000)
    for code, moisture in zip(drums, (1_720, 1_940), strict=True):
        house.do(Measure(code, moisture=moisture))
    return (house, *drums)


def _blends(house: BuiltHouse, last: int = 0) -> BlendsOf:
    return house.house.ask(lambda view: blends_of(view, "Blend tank", last))


def test_planned_weighed_and_read() -> None:
    """60 kg of 17.2 % and 40 kg of 19.4 % are 18.08 %, by hand; what is added has no say in it."""
    house, first, second = _house()
    spice = house.do(Supply("Spice Trade", "ingredient", "Ginger", Weight(net_g=30_000))).codes[0]
    parts = (
        Portion(first, Weight(net_g=60_000), planned_g=59_000),
        Portion(second, Weight(net_g=40_000), seed=True),
        Portion(spice, Weight(net_g=25_000)),
    )
    house.do(Blend("Blend tank", parts, "cream", note="for the shop"))
    found = _blends(house)
    (sheet,) = found.sheets
    assert (found.name, sheet.purpose, sheet.note) == ("Blend tank", "cream", "for the shop")
    assert (sheet.net_g, sheet.moisture) == (125_000, 1_808)
    assert [(row.code, row.noun, row.planned_g, row.net_g, row.seed) for row in sheet.parts] == [
        (first, "drum", 59_000, 60_000, False),
        (second, "drum", None, 40_000, True),
        (spice, "ingredient", None, 25_000, False),
    ]
    assert [row.share for row in sheet.parts] == [0.48, 0.32, 0.2]


def test_a_part_nobody_read_leaves_the_moisture_open() -> None:
    house, first, _ = _house()
    parts = (Portion(first, Weight(net_g=60_000)), Portion("Tank", Weight(net_g=20_000)))
    house.do(Blend("Blend tank", parts))
    assert _blends(house).sheets[0].moisture is None


def test_the_newest_first_and_none_that_was_reversed() -> None:
    house, first, second = _house()
    house.do(Blend("Blend tank", (Portion(first, Weight(net_g=10_000)),), note="one"))
    house.do(Blend("Blend tank", (Portion(second, Weight(net_g=10_000)),), note="two"))
    wrong = house.do(Blend("Blend tank", (Portion(first, Weight(net_g=99)),))).entries[0].id
    house.do(Reverse(wrong, "another tank"))
    assert [sheet.note for sheet in _blends(house).sheets] == ["two", "one"]
    assert [sheet.note for sheet in _blends(house, last=1).sheets] == ["two"]
    house.vessel("Empty")
    assert house.house.ask(lambda view: blends_of(view, "Empty")).sheets == ()


def test_planned_against_weighed_and_then_measured() -> None:
    """Of each blend what was drawn before the next; its drums where the fill was not read."""
    house, first, second = _house()
    parts = (Portion(first, Weight(net_g=60_000), planned_g=59_000), Portion(second, whole=True))
    house.do(Blend("Blend tank", parts))
    (sheet,) = _blends(house).sheets
    assert (sheet.planned_g, sheet.net_g, sheet.measured) == (349_000, 350_000, None)
    drums = house.drum("Blend tank", 100_000), house.drum("Blend tank", 200_000)
    for code, moisture in zip(drums, (1_880, 1_910), strict=True):
        house.do(Measure(code, moisture=moisture))
    (sheet,) = _blends(house).sheets
    assert (sheet.measured, sheet.read_on) == (1_900, drums)
    house.do(Blend("Blend tank", (Portion(first, Weight(net_g=30_000)),)))
    newer, older = _blends(house).sheets
    assert (newer.planned_g, newer.measured, older.measured) == (None, None, 1_900)
    code = _blends(house).vessel
    found = house.house.ask(lambda view: newest_blends(view, [code], house.now_ms))
    assert found == {code: newer}
    assert house.house.ask(lambda view: newest_blends(view, [code], house.now_ms + 1)) == {}
