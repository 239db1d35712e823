"""What can be sent, oldest first; by which way a hold reaches a lot; who has what comes back."""

import pytest

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.services.dispatching import (
    GroupOnHand,
    OnShelf,
    Pick,
    on_hand_by_group,
    packs,
    parse_jars,
    pick_of,
    shelf,
)
from tests.support.goods import bottled, house_with_goods
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    return house_with_goods()


def _shelf(house: BuiltHouse) -> tuple[OnShelf, ...]:
    return house.house.ask(shelf)


def _pick(house: BuiltHouse, code: str) -> Pick | None:
    return house.house.ask(lambda view: pick_of(view, code))


def _packed(house: BuiltHouse, lot: str, jars: int, copies: int = 1) -> list[str]:
    return [c for c in house.do(Pack((PackLine(lot, jars),), copies)).given if c[0] == "C"]


def _groups(house: BuiltHouse) -> tuple[GroupOnHand, ...]:
    return house.house.ask(lambda view: on_hand_by_group(view, shelf(view)))


def _jar(lot: str, serial: int) -> str:
    code = parse_code(lot)
    assert isinstance(code, Code)
    return str(make_jar_code(code, serial))


def test_the_shelf_has_jars_by_product_then_drums_the_oldest_first(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    first, aster, later = bottled(house), bottled(house, "Aster 250"), bottled(house, jars=20)
    house.container("Drum 7", tare_g=18_000)
    named = house.do(Fill("Tank 1", Weight(net_g=100_000), container="Drum 7")).codes[-1]
    follows = house.container("Drum 8")
    pending = house.do(Fill("Tank 1", Weight(), container=follows, pending=True)).codes[-1]
    wax = next(code for code in house.do(Cappings("Tank 1", 20_000)).codes if code[0] == "W")
    rows = _shelf(house)
    assert [row.code for row in rows] == [aster, first, later, drum, named, pending, wax]
    assert [(row.group, row.name, row.jars, row.grams) for row in rows[:3]] == [
        ("product/aster-250", "Aster 250", 100, 25_000),
        ("product/clover-500", "Clover 500", 100, 50_000),
        ("product/clover-500", "Clover 500", 20, 10_000),
    ]
    assert [(row.group, row.name, row.tare_g, row.pending) for row in rows[3:6]] == [
        ("lots/D", "", None, False),
        ("lots/D", "Drum 7", 18_000, False),
        ("lots/D", "Drum 8", None, True),
    ]


def test_what_was_sent_is_not_on_the_shelf_and_a_rest_is(house: BuiltHouse) -> None:
    drum, jars = house.drum("Tank 1", 200_000), bottled(house)
    lines = (DispatchLine(drum, net_g=50_000), DispatchLine(jars))
    house.do(Dispatch("Packer", lines))
    assert [(row.code, row.grams) for row in _shelf(house)] == [(drum, 150_000)]


def test_by_product_what_is_held_is_counted_apart(house: BuiltHouse) -> None:
    free, held = bottled(house), bottled(house, jars=40)
    drum = house.drum("Tank 1", 200_000)
    house.do(PutOnHold(held, "label wrong"))
    jars, drums = _groups(house)
    assert (jars.group, jars.name, jars.jars, jars.grams) == (
        "product/clover-500",
        "Clover 500",
        100,
        50_000,
    )
    assert (jars.lots, jars.held, jars.count) == ((free,), 1, 100)
    assert (drums.name, drums.lots, drums.held, drums.count) == ("drums", (drum,), 0, 1)


def test_a_scan_finds_the_lot_and_the_jar(house: BuiltHouse) -> None:
    lot = bottled(house)
    pick = _pick(house, lot)
    assert pick is not None
    assert (pick.row.code, pick.row.jars, pick.serial) == (lot, 100, 0)
    one = _pick(house, _jar(lot, 38).lower())
    assert one is not None
    assert (one.row.code, one.serial) == (lot, 38)
    assert refused(lambda: _pick(house, _jar(lot, 101))) == (
        f"Lot {lot} has 100 jars, so there is no serial 00101. Scan it again."
    )
    assert refused(lambda: _pick(house, "Clover")).startswith("Clover is not a code")


def test_a_containers_number_means_the_drum_in_it(house: BuiltHouse) -> None:
    container = house.container("Drum 7", tare_g=18_000)
    assert refused(lambda: _pick(house, container)).startswith(f"{container} is a container, but")
    drum = house.do(Fill("Tank 1", Weight(net_g=100_000), container="Drum 7")).codes[-1]
    pick = _pick(house, container.lower())
    assert pick is not None
    assert pick.row.code == drum
    tank = house.vessel("Tank 9")
    assert refused(lambda: _pick(house, tank)).startswith(f"{tank} is a vessel, but")


def test_a_case_and_a_pallet_are_picked_as_they_were_packed(house: BuiltHouse) -> None:
    lot, aster = bottled(house), bottled(house, "Aster 250")
    first, second = _packed(house, lot, 12, copies=2)
    (mixed,) = _packed_both(house, lot, aster)
    pick = _pick(house, first.lower())
    assert pick is not None
    assert (pick.row.code, pick.row.kind, pick.row.group) == (first, "C", "product/clover-500")
    assert (pick.row.name, pick.row.jars, pick.row.grams) == ("Clover 500", 12, 6_000)
    pallet = house.do(Pack((PackLine(first), PackLine(second)))).given[0]
    whole = _pick(house, pallet)
    assert whole is not None
    assert (whole.row.kind, whole.row.jars, whole.row.contents) == (
        "L",
        24,
        (("product/clover-500", 24),),
    )
    both = _pick(house, mixed)
    assert both is not None
    assert (both.row.group, both.row.name, both.row.jars) == ("", "Clover 500, Aster 250", 10)
    assert both.row.contents == (("product/clover-500", 6), ("product/aster-250", 4))
    found = house.house.ask(lambda view: packs(view, shelf(view)))
    assert {row.code for row in found} == {first, second, mixed, pallet}


def _packed_both(house: BuiltHouse, lot: str, other: str) -> list[str]:
    lines = (PackLine(lot, 6), PackLine(other, 4))
    return [code for code in house.do(Pack(lines)).given if code[0] == "C"]


def test_an_empty_case_is_for_the_ledger_to_refuse_and_a_held_one_says_why(
    house: BuiltHouse,
) -> None:
    lot = bottled(house)
    empty, held = _packed(house, lot, 12, copies=2)
    house.do(Unpack(empty, "wrong lids"))
    assert _pick(house, empty) is None
    assert refused(lambda: _pick(house, "C26-0099-9")).startswith("C26-0099-9 is ")
    house.do(PutOnHold(lot, "label wrong"))
    found = house.house.ask(lambda view: packs(view, shelf(view)))
    assert [(row.code, row.held) for row in found] == [(held, f"{lot}: label wrong")]
    house.do(Release(lot, "relabelled"))
    fill = next(row.code for row in house.back(lot).lots if row.kind == "T")
    pull = next(row.code for row in house.back(lot).lots if row.kind == "S")
    house.do(PutOnHold(pull, "smells of smoke"))
    assert refused(lambda: _pick(house, held)).startswith(
        f"{lot} is on hold through {pull}, by way of {fill}: smells of smoke."
    )


def test_what_is_gone_and_what_is_mixed_is_for_the_ledger_to_refuse(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    fill = next(row.code for row in house.back(drum).lots if row.kind == "T")
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    assert _pick(house, drum) is None
    assert _pick(house, fill) is None


def test_a_lot_that_is_held_itself_has_no_way_and_one_cleared_is_free(house: BuiltHouse) -> None:
    drum, other = house.drum("Tank 1", 200_000), house.drum("Tank 1", 100_000)
    house.do(PutOnHold(drum, "leaks"))
    pick = _pick(house, drum)
    assert pick is not None
    assert pick.row.held == f"{drum}: leaks"
    pull = next(row.code for row in house.back(other).lots if row.kind == "S")
    house.do(PutOnHold(pull, "smells of smoke"))
    house.do(Clear(other, pull, "no smoke found"))
    free = _pick(house, other)
    assert free is not None
    assert free.row.held == ""
    house.do(Release(pull, "tasted"))
    assert [row.held for row in _shelf(house)] == [f"{drum}: leaks", ""]
    house.do(PutOnHold(pull, "smells of smoke"))
    fill = next(row.code for row in house.back(other).lots if row.kind == "T")
    told = {row.code: (row.held, row.way) for row in _shelf(house)}
    assert told[drum] == (f"{drum}: leaks", f"{drum}: leaks")
    smoke = "smells of smoke"
    assert told[other] == (f"{pull}: {smoke}", f"{pull}, by way of {fill}: {smoke}")


@pytest.mark.parametrize(
    ("text", "jars"),
    [("288", 288), ("24x12", 288), ("24 X 12", 288), ("24 × 12", 288), ("1 200", 1200), ("0", 0)],
)
def test_jars_are_counted_alone_or_by_the_case(text: str, jars: int) -> None:
    assert parse_jars(text) == jars


@pytest.mark.parametrize("text", ["", "12,5", "x12", "24x", "24x12x2", "-3"])
def test_what_is_no_number_of_jars_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as caught:
        parse_jars(text)
    assert caught.value.field == "jars"
