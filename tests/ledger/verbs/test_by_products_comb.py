"""Cut comb and chunk honey: every gram is somewhere, and what is behind it is in reach."""

import pytest

from honeyledger.ledger.run_balance import balance_of
from honeyledger.ledger.verbs.by_products import Chunk, Cut, Melt
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Join, Line, Receive, Split
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded
from honeyledger.services.stock import lot_balance
from tests.support.books import (
    attributes,
    code_in,
    holding,
    late,
    mark,
    origins,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return _house()


def _house(margin_min: int = 0) -> BuiltHouse:
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line", sort="line")
    for name in ("Drainer", "Spinner", "Melter", "Tank 3"):
        house.vessel(name)
    house.do(Register("product", {"name": "Cut comb", "net_g": 340}))
    house.do(Register("product", {"name": "Chunk", "net_g": 450}))
    house.do(Register("customer", {"name": "Shop"}))
    return house


def _sound(house: BuiltHouse) -> None:
    assert [one for one in house.store.audit() if not one.holds] == []


def _sorts(house: BuiltHouse, done: Recorded) -> dict[str, str]:
    """Codes of the lots made, by what they are."""
    sorts = {str(attributes(house, code).get("sort", "")): code for code in done.codes}
    return {sort: code for sort, code in sorts.items() if sort}


def _comb(house: BuiltHouse) -> tuple[str, str]:
    """A pallet with 10 shallow supers, 100 kg of honey by the scale: pull and tag."""
    return house.pull("Creek", 100_000)


def test_comb_is_cut_and_every_gram_is_somewhere(house: BuiltHouse) -> None:
    """100 kg: 240 pieces 81.6, drained 10, trimmings 6, rejects 1; 1.4 kg short."""
    pull, tag = _comb(house)
    done = house.do(
        Cut(
            tag,
            pieces=240,
            net_g=81_600,
            product="Cut comb",
            drained_g=10_000,
            into="Drainer",
            trimmings_g=6_000,
            rejects_g=1_000,
        )
    )
    made = _sorts(house, done)
    comb, trimmings = made["cut comb"], made["trimmings"]
    assert attributes(house, comb) == {
        "sort": "cut comb",
        "product": "cut-comb",
        "net_g": 340,
        "pieces": 240,
    }
    assert holding(house, comb) == {"jars": (81_600, 240)}
    assert holding(house, trimmings) == {f"barrel/{trimmings}": (6_000, 0)}
    assert holding(house, pull) == {
        "Creek": (-100_000, 0),
        "Drainer": (10_000, 0),
        "discarded": (1_000, 0),
        "difference": (1_400, 0),
    }
    assert standing(house, f"pallet/{tag}") == {}
    assert origins(house, comb) == {pull: 81_600}
    assert done.notes == ()
    balance = house.house.ask(lambda view: lot_balance(view, pull))
    assert balance.gap_g == 0
    assert {part.code: part.grams for part in balance.later} == {comb: 81_600, trimmings: 6_000}
    assert house.shares(comb) == {"Creek": 1.0}
    _sound(house)


def test_drained_honey_and_trimmings_go_back_in(house: BuiltHouse) -> None:
    pull, tag = _comb(house)
    house.do(
        Cut(tag, 200, 68_000, drained_g=9_000, into="Drainer", trimmings_g=4_000,
            trimmings_into="Drainer")
    )  # fmt: skip
    assert standing(house, "Drainer") == {pull: 13_000}
    house.pour("Drainer", "Tank 3", 9_000)
    assert house.shares(house.drum("Tank 3", 9_000)) == {"Creek": 1.0}
    _sound(house)


def test_odd_grams_of_three_pulls_into_one_vessel(house: BuiltHouse) -> None:
    """Drained honey and trimmings together are shared out as one weight."""
    done = house.do(Receive((Line("Creek", 7), Line("Hill", 2), Line("Creek", 1))))
    tag = code_in(done, "G")
    for _ in range(3):
        house.do(
            Cut(tag, 20, 24_223, count=3, drained_g=7_301, into="Drainer", trimmings_g=2_589,
                trimmings_into="Drainer", rejects_g=881)
        )  # fmt: skip
    assert sum(standing(house, "Drainer").values()) == 3 * (7_301 + 2_589)
    assert sum(standing(house, f"pallet/{tag}").values()) == 14_800
    _sound(house)


def test_a_part_of_a_pallet_with_two_yards_is_cut_of_both_unless_one_is_named(
    house: BuiltHouse,
) -> None:
    done = house.do(Receive((Line("Creek", 6), Line("Hill", 4))))
    creek, hill = done.codes
    tag = code_in(done, "G")
    comb = code_in(house.do(Cut(tag, 100, 34_000, count=5)), "K")
    assert origins(house, comb) == {creek: 20_400, hill: 13_600}
    only = code_in(house.do(Cut(tag, 60, 20_400, count=2, pull=hill)), "K")
    assert origins(house, only) == {hill: 20_400}
    assert house.shares(only) == {"Hill": 1.0}
    _sound(house)


def test_what_came_by_the_pallet_lately_is_in_the_combs_reach() -> None:
    house = _house(margin_min=60)
    done = house.do(Receive((Line("Creek", 6), Line("Hill", 4))))
    creek, hill = done.codes
    tag = code_in(done, "G")
    house.do(Split(tag, 4, pull=hill))
    cut = house.do(Cut(tag, 200, 68_000, trimmings_g=4_000))
    comb, trimmings = code_in(cut, "K"), code_in(cut, "W")
    assert origins(house, comb) == {creek: 68_000, hill: 0}
    assert origins(house, trimmings) == {creek: 4_000, hill: 0}


def test_a_pallet_joined_by_a_late_scan_was_cut_too() -> None:
    house = _house(margin_min=60)
    creek, tag = _comb(house)
    hill, other = house.pull("Hill", 30_000)
    cut = house.do(Cut(tag, 200, 68_000, drained_g=9_000, into="Drainer", trimmings_g=4_000))
    comb, trimmings = code_in(cut, "K"), code_in(cut, "W")
    house.do(Join(other, tag))
    for lot in (comb, trimmings):
        assert late(house, lot) == {hill}
        assert origins(house, lot)[hill] == 0
    assert standing(house, "Drainer") == {creek: 9_000, hill: 0}
    _sound(house)


def test_cutting_in_a_run_that_pours_back(house: BuiltHouse) -> None:
    run = code_in(house.do(OpenRun("Line", tank="Tank 3")), "R")
    _, tag = _comb(house)
    cut = house.do(
        Cut(tag, 200, 68_000, drained_g=9_000, into="Tank 3", trimmings_g=4_000), run=run
    )
    balance = house.house.ask(lambda view: balance_of(view, run))
    assert (balance.in_g, balance.poured_in_g, balance.barrels) == (9_000, 9_000, ())
    house.pour(code_in(cut, "W"), "Melter")
    house.do(Melt("Melter", 1_000, 3_000, into="Tank 3"), run=run)
    balance = house.house.ask(lambda view: balance_of(view, run))
    assert (balance.in_g, balance.barrels) == (12_000, ())


def test_cutting_is_reversed(house: BuiltHouse) -> None:
    pull, tag = _comb(house)
    done = house.do(Cut(tag, 200, 68_000, drained_g=9_000, into="Drainer", trimmings_g=4_000))
    house.do(Reverse(done.entries[0].id, "another pallet"))
    assert holding(house, pull) == {"Creek": (-100_000, 0), f"pallet/{tag}": (100_000, 10)}
    assert standing(house, "Drainer") == {}
    house.do(Load(tag, "Line"))
    _sound(house)


def test_unusual_cutting_is_told(house: BuiltHouse) -> None:
    _, tag = _comb(house)
    done = house.do(Cut(tag, 200, 50_000, product="Cut comb"))
    assert done.notes == (
        f"The books saw 100.0 kg of honey in what was cut of {tag}, and pieces, drained honey, "
        "trimmings and rejects weigh 50.0 kg together: look for what was left out, and check "
        "pounds against kilograms.",
        "200 pieces at 50.0 kg together are 250 g each, and the product says 340 g: count them "
        "again, and weigh a few.",
    )


def test_comb_is_sold_by_the_piece(house: BuiltHouse) -> None:
    _, tag = _comb(house)
    comb = code_in(house.do(Cut(tag, 240, 81_600)), "K")
    assert turned_down(house, Dispatch("Shop", (DispatchLine(comb, 241),))) == (
        f"There are 240 pieces of {comb} here, not 241. Count again."
    )
    house.do(Dispatch("Shop", (DispatchLine(comb, 40),)))
    assert holding(house, comb) == {"jars": (68_000, 200), "Shop": (13_600, 40)}
    (customer,) = house.forward("Creek").customers
    assert (customer.name, customer.grams, customer.jars) == ("Shop", 13_600, 40)
    assert turned_down(house, Dispatch("Shop", (DispatchLine(comb, net_g=3_400),))) == (
        f"{comb} is counted in pieces: say how many pieces."
    )
    note = code_in(house.do(Dispatch("Shop", (DispatchLine(comb, 10),))), "N")
    house.do(TakeBack("Shop", note, "leaks"))
    assert holding(house, comb) == {"jars": (68_000, 200), "Shop": (13_600, 40)}


def test_what_cutting_refuses(house: BuiltHouse) -> None:
    pull, tag = _comb(house)
    assert turned_down(house, Cut(tag, 0, 68_000)) == (
        "Count the pieces that were packed: at least one."
    )
    assert turned_down(house, Cut(tag, 200, 0)) == (
        "Put all the packed pieces on the scale together, and type what they weigh."
    )
    assert turned_down(house, Cut(tag, 200, 68_000, drained_g=9_000)) == (
        "Name the vessel that the drained honey runs into, or give no weight for it."
    )
    assert turned_down(house, Cut(tag, 200, 68_000, rejects_g=-1_000)) == (
        "Rejects cannot weigh −1.0 kg: weigh it again, or leave it out."
    )
    assert turned_down(house, Cut(tag, 200, 68_000, count=11)) == (
        f"{tag} holds 10 supers, not 11. Count them, or correct the count."
    )
    house.do(PutOnHold(pull, "treated"))
    assert turned_down(house, Cut(tag, 200, 68_000)).startswith(
        f"{pull} is on hold through {pull}"
    )
    why = "comb of the hives that were not treated"
    done = house.do(Cut(tag, 200, 68_000, despite_hold=why))
    assert turned_down(house, Dispatch("Shop", (DispatchLine(code_in(done, "K"), 5),))).startswith(
        f"{code_in(done, 'K')} is on hold through {pull}"
    )
    entry = done.entries[0].id
    assert turned_down(house, Cut(tag, 200, 68_000)) == (
        f"Nothing stands on {tag} any more: it was cut with entry {entry}. Scan the tag of the "
        "next pallet."
    )


def _chunk_house(house: BuiltHouse) -> tuple[str, str]:
    """Comb of Creek, 240 pieces of 340 g, and 100 kg of Hill in Tank 3: comb and fill."""
    _, tag = _comb(house)
    comb = code_in(house.do(Cut(tag, 240, 81_600)), "K")
    return comb, house.load("Hill", 100_000, "Tank 3")


def test_chunk_honey_is_of_comb_and_liquid(house: BuiltHouse) -> None:
    """48 jars of 450 g are 21.6 kg: 24 pieces of comb, 8.16 kg, and 13.44 kg of liquid."""
    comb, _ = _chunk_house(house)
    done = house.do(Chunk("Chunk", comb, 24, "Tank 3", 48))
    chunk = code_in(done, "K")
    fill = code_in(done, "T")
    assert origins(house, chunk) == {comb: 8_160, fill: 13_440}
    assert holding(house, chunk) == {"jars": (21_600, 48)}
    assert holding(house, comb) == {"jars": (73_440, 216)}
    assert standing(house, "Tank 3") == {fill: 86_560}
    shares = house.shares(chunk)
    assert shares["Creek"] == pytest.approx(8_160 / 21_600)
    assert shares["Hill"] == pytest.approx(13_440 / 21_600)
    assert turned_down(house, Dispatch("Shop", (DispatchLine(chunk, 49),))) == (
        f"There are 48 jars of {chunk} here, not 49. Count again."
    )
    _sound(house)


def test_the_liquid_weighed_and_the_last_of_the_comb(house: BuiltHouse) -> None:
    comb, _ = _chunk_house(house)
    drum = house.drum("Tank 3", 90_000)
    chunk = code_in(house.do(Chunk("Chunk", comb, 240, drum, 300, liquid_g=60_000)), "K")
    assert origins(house, chunk) == {comb: 81_600, drum: 60_000}
    assert holding(house, comb) == {}
    assert comb not in standing(house, "jars")
    assert holding(house, drum) == {f"drum/{drum}": (30_000, 0)}
    _sound(house)


def test_chunk_honey_is_reversed(house: BuiltHouse) -> None:
    comb, hill = _chunk_house(house)
    done = house.do(Chunk("Chunk", comb, 24, "Tank 3", 48))
    house.do(Reverse(done.entries[0].id, "wrong tank"))
    assert holding(house, comb) == {"jars": (81_600, 240)}
    assert standing(house, "Tank 3") == {hill: 100_000}
    _sound(house)


def test_what_chunk_honey_refuses(house: BuiltHouse) -> None:
    comb, _ = _chunk_house(house)
    house.do(Register("product", {"name": "No size"}))
    assert turned_down(house, Chunk("Chunk", comb, 24, "Tank 3", 0)) == (
        "Count the jars that were filled: at least one."
    )
    assert turned_down(house, Chunk("No size", comb, 24, "Tank 3", 48)) == (
        "No size has no net content on record. Put it into its record first."
    )
    assert turned_down(house, Chunk("Chunk", comb, 48, "Tank 3", 24)) == (
        "48 pieces weigh 16.3 kg, and 24 jars hold 10.8 kg: nothing is left for liquid honey. "
        "Count both again, or weigh the liquid."
    )
    assert turned_down(house, Chunk("Chunk", comb, 241, "Tank 3", 480)) == (
        f"There are 240 pieces of {comb} here, not 241. Count again."
    )
    house.do(Dispatch("Shop", (DispatchLine(comb),)))
    assert turned_down(house, Chunk("Chunk", comb, 24, "Tank 3", 48)) == (
        f"{comb} is no longer in the house: nothing of it is left."
    )


def test_chunk_honey_filled_from_another_tank_is_amended(house: BuiltHouse) -> None:
    comb, _ = _chunk_house(house)
    house.yard("Ridge")
    ridge = house.load("Ridge", 50_000, "Drainer")
    chunk = code_in(house.do(Chunk("Chunk", comb, 24, "Tank 3", 48)), "K")
    house.do(Amend(chunk, "wrong tank", source="Drainer"))
    assert late(house, chunk) == {ridge}
    house.do(Amend(chunk, "wrong label", product="Cut comb"))
    assert mark(house, chunk, "product") == "cut-comb"
