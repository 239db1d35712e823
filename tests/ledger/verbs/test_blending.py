"""Blends: weighed parts in one entry, what was planned of each, and what old seed keeps."""

import pytest

from honeyledger.ledger.run_balance import balance_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.cards import lot_card
from honeyledger.services.stock import lot_balance
from tests.support.books import (
    code_in,
    effects,
    holding,
    mark,
    origins,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return _house()


def _house(margin_min: int = 0) -> BuiltHouse:
    house = BuiltHouse(margin_min)
    for name in ("Creek", "Hill", "Ridge"):
        house.yard(name)
    for name in ("Tank 1", "Tank 2", "Blend tank", "Cream tank"):
        house.vessel(name)
    house.do(Register("supplier", {"name": "Spice Trade"}))
    return house


def _sound(house: BuiltHouse) -> None:
    assert [one for one in house.store.audit() if not one.holds] == []


def _drums(house: BuiltHouse) -> tuple[str, str]:
    """A drum of Creek, 300 kg, and one of Hill, 200 kg."""
    house.load("Creek", 300_000, "Tank 1")
    house.load("Hill", 200_000, "Tank 2")
    return house.drum("Tank 1", 300_000), house.drum("Tank 2", 200_000)


def _part(source: str, net_g: int, **more: int | bool) -> Portion:
    return Portion(source, Weight(net_g=net_g), **more)  # type: ignore[arg-type]


def test_a_blend_is_one_entry_and_one_fill_at_the_first_draw(house: BuiltHouse) -> None:
    first, second = _drums(house)
    done = house.do(
        Blend("Blend tank", (_part(first, 120_000, planned_g=120_000), _part(second, 80_000)))
    )
    assert [entry.kind for entry in done.entries] == ["blend"]
    assert done.codes == ()
    assert standing(house, "Blend tank") == {first: 120_000, second: 80_000}
    drum = house.drum("Blend tank", 150_000)
    (fill,) = origins(house, drum)
    assert origins(house, fill) == {first: 120_000, second: 80_000}
    assert house.shares(drum) == {"Creek": 0.6, "Hill": 0.4}
    assert holding(house, first) == {f"drum/{first}": (180_000, 0)}
    balance = house.house.ask(lambda view: lot_balance(view, first))
    assert balance.gap_g == 0
    _sound(house)


def test_what_was_planned_is_kept_beside_what_was_weighed(house: BuiltHouse) -> None:
    first, second = _drums(house)
    parts = (
        _part(first, 124_000, planned_g=120_000),
        _part(second, 80_500, planned_g=80_000),
        Portion("Tank 1", Weight(net_g=10_000)),
    )
    house.load("Ridge", 50_000, "Tank 1")
    done = house.do(Blend("Blend tank", parts, note="for the shop"))
    assert done.notes == (
        f"Of {first} 124.0 kg went in, and 120.0 kg was planned: look at the shares again.",
    )
    (sheet,) = [row[2] for row in effects(done, "marks") if row[1].startswith("blend/")]
    fill = code_in(done, "T")
    assert sheet == {
        "purpose": "blend",
        "note": "for the shop",
        "parts": [
            {"lot": _id(house, first), "net_g": 124_000, "planned_g": 120_000},
            {"lot": _id(house, second), "net_g": 80_500, "planned_g": 80_000},
            {"lot": _id(house, fill), "net_g": 10_000},
        ],
    }
    assert mark(house, first, "blended") == {"purpose": "blend", "planned_g": 120_000}
    told = house.house.ask(lambda view: lot_card(view, first)).history[-1]
    assert told.sentence == (
        f"Blended: 124.0 kg from drum {first} to Blend tank; 120.0 kg planned."
    )


def _id(house: BuiltHouse, code: str) -> int:
    lot = house.house.ask(lambda view: view.lot_by_code(code))
    assert lot is not None
    return lot.id


def test_a_whole_drum_and_a_heel_that_stays_in_reach(house: BuiltHouse) -> None:
    first, second = _drums(house)
    house.load("Ridge", 50_000, "Blend tank")
    ridge = house.drum("Blend tank", 50_000)
    heel = next(iter(origins(house, ridge)))
    house.do(Blend("Blend tank", (Portion(first, whole=True), Portion(second, whole=True))))
    drum = house.drum("Blend tank", 290_000)
    assert origins(house, next(iter(origins(house, drum))))[heel] == 0
    assert house.shares(drum) == pytest.approx({"Creek": 0.6, "Hill": 0.4, "Ridge": 0.0})
    _sound(house)


def test_a_wet_drum_is_blended_down_by_the_readings(house: BuiltHouse) -> None:
    """300 kg of 17.2 % and 200 kg of 19.4 % are 18.08 %, by hand."""
    first, second = _drums(house)
    house.do(Measure(first, moisture=1_720))
    house.do(Measure(second, moisture=1_940))
    parts = (Portion(first, whole=True), Portion(second, whole=True))
    done = house.do(Blend("Blend tank", parts, "standardise"))
    assert done.notes == (
        "By the readings of its parts the blend is at 18.08 %: put it on hold until it is read "
        "again, wet honey ferments.",
    )


def test_a_heel_nobody_read_leaves_the_moisture_open(house: BuiltHouse) -> None:
    house.load("Ridge", 50_000, "Blend tank")
    first, second = _drums(house)
    house.do(Measure(first, moisture=1_940))
    assert house.do(Blend("Blend tank", (Portion(first, whole=True),))).notes == ()
    house.do(Measure(second, moisture=1_940))


def _batch(house: BuiltHouse, yard: str, seed: str) -> tuple[str, tuple[str, ...]]:
    """90 kg of a yard creamed with 10 kg of seed: a drum of the batch, and what was told."""
    house.wash("Tank 1", "Cream tank")
    house.load(yard, 90_000, "Tank 1")
    parts = (_part("Tank 1", 90_000), _part(seed, 10_000, seed=True))
    done = house.do(Blend("Cream tank", parts, "cream"))
    return house.drum("Cream tank", 100_000), done.notes


def test_an_old_seed_keeps_an_old_yard_in_every_batch(house: BuiltHouse) -> None:
    house.load("Ridge", 50_000, "Tank 2")
    seed = house.drum("Tank 2", 50_000)
    first, told = _batch(house, "Creek", seed)
    assert told == ()
    second, told = _batch(house, "Hill", first)
    assert told == (
        f"{first} goes back over 2 earlier batches: Ridge of 2026 is in each of them, and in this "
        "one. Begin with fresh seed to let it go.",
    )
    third, told = _batch(house, "Creek", second)
    assert f"{second} goes back over 3 earlier batches: Ridge of 2026" in told[0]
    assert house.shares(third)["Ridge"] == pytest.approx(0.001)
    _sound(house)


def test_seed_out_of_a_tank_is_looked_back_on_too(house: BuiltHouse) -> None:
    house.load("Ridge", 50_000, "Tank 2")
    first, _ = _batch(house, "Creek", "Tank 2")
    house.pour(first, "Blend tank")
    _, told = _batch(house, "Hill", "Blend tank")
    assert "goes back over 2 earlier batches: Ridge of 2026" in told[0]


def test_an_ingredient_is_a_part_and_no_part_of_the_honeys_shares(house: BuiltHouse) -> None:
    first, _ = _drums(house)
    spice = house.do(
        Supply("Spice Trade", "ingredient", "Cinnamon", Weight(net_g=5_000), supplier_lot="C 9")
    ).codes[0]
    house.do(Blend("Cream tank", (_part(first, 98_000), _part(spice, 2_000)), "cream"))
    assert standing(house, "Cream tank") == {first: 98_000, spice: 2_000}
    assert holding(house, spice) == {
        "Spice Trade": (-5_000, 0),
        "store": (3_000, 0),
        "Cream tank": (2_000, 0),
    }
    drum = house.drum("Cream tank", 100_000)
    trace = house.back(drum)
    assert [(row.name, row.share, row.grams) for row in trace.ancestors] == [
        ("Creek", 1.0, 98_000)
    ]
    (added,) = trace.added
    assert (added.code, added.name, added.sort, added.supplier) == (
        *(spice, "Cinnamon", "ingredient"),
        "Spice Trade",
    )
    assert (added.share, added.grams, added.supplier_lot) == (0.02, 2_000, "C 9")
    _sound(house)


def test_the_last_of_an_ingredient(house: BuiltHouse) -> None:
    first, _ = _drums(house)
    facts = Supply("Spice Trade", "ingredient", "Cinnamon", Weight(net_g=5_000))
    spice = house.do(facts).codes[0]
    assert turned_down(house, Blend("Cream tank", (_part(spice, 5_001),))) == (
        f"There are 5.000 kg of {spice} here, not 5.001 kg. Weigh again."
    )
    part = Portion(spice, Weight(net_g=4_900), whole=True)
    house.do(Blend("Cream tank", (_part(first, 98_000), part)))
    assert holding(house, spice)["difference"] == (100, 0)
    assert standing(house, "store") == {}
    assert turned_down(house, Blend("Cream tank", (_part(spice, 1),))) == (
        f"{spice} is no longer in the house: nothing of it is left."
    )
    _sound(house)


def test_a_blend_in_a_run_is_poured_in(house: BuiltHouse) -> None:
    house.vessel("Line", sort="line")
    first, _ = _drums(house)
    run = code_in(house.do(OpenRun("Line", tank="Tank 1")), "R")
    house.load("Ridge", 40_000, "Blend tank")
    parts = (_part(first, 100_000), _part("Blend tank", 40_000))
    house.do(Blend("Tank 1", parts), run=run)
    balance = house.house.ask(lambda view: balance_of(view, run))
    assert balance.poured_in_g == 100_000  # what went from vessel to vessel was never out


def test_what_is_in_the_blend_by_a_late_scan() -> None:
    house = _house(margin_min=60)
    first, _ = _drums(house)
    house.load("Ridge", 100_000, "Blend tank", at_min=300)
    drum = house.drum("Blend tank", 50_000, at_min=310)
    house.do(Blend("Blend tank", (_part(first, 50_000),)), at_min=320)
    assert {row.name for row in house.back(drum).ancestors} == {"Ridge", "Creek"}


def test_a_blend_is_reversed(house: BuiltHouse) -> None:
    first, second = _drums(house)
    done = house.do(Blend("Blend tank", (_part(first, 120_000), Portion(second, whole=True))))
    house.do(Reverse(done.entries[0].id, "another tank"))
    assert standing(house, "Blend tank") == {}
    assert holding(house, first) == {f"drum/{first}": (300_000, 0)}
    assert holding(house, second) == {f"drum/{second}": (200_000, 0)}
    assert mark(house, first, "blended") is None
    _sound(house)


def test_what_a_blend_refuses(house: BuiltHouse) -> None:
    first, _ = _drums(house)
    jars = house.do(Supply("Spice Trade", "packaging", "Jars", count=500)).codes[0]
    assert turned_down(house, Blend("Blend tank", ())) == (
        "Name the parts of the blend: what goes in, and how much of each."
    )
    assert turned_down(house, Blend("Blend tank", (_part(first, 1_000),), "stir")) == (
        "stir is no purpose of a blend: say blend, cream or standardise."
    )
    assert turned_down(house, Blend("Blend tank", (_part(jars, 1_000),))) == (
        f"{jars} is packaging, and nothing to eat. Name honey or an ingredient."
    )
    assert turned_down(house, Blend("Blend tank", (Portion(first),))) == (
        "Type the net weight, or say that all of it goes."
    )
    assert turned_down(house, Blend("Blend tank", (_part("Blend tank", 1_000),))) == (
        "Blend tank cannot be filled from itself. Name another one."
    )
    house.do(PutOnHold(first, "treated"))
    facts = Blend("Blend tank", (_part(first, 1_000),))
    assert turned_down(house, facts).endswith("It can go on only if a named person says why.")
    done = house.do(Blend("Blend tank", (_part(first, 1_000),), despite_hold="tested"))
    assert done.notes == (f"{first} went on although held through {first}: tested.",)


def test_seed_that_nobody_knows_in_full_is_taken_as_any_other(house: BuiltHouse) -> None:
    """More is drawn than the books saw: what is missing is made in the same entry."""
    house.load("Ridge", 10_000, "Tank 2")
    first, _ = _batch(house, "Creek", "Tank 2")
    house.pour(first, "Blend tank", 5_000)
    done = house.do(Blend("Cream tank", (_part("Blend tank", 40_000, seed=True),), "cream"))
    assert any("stands for the rest, on hold" in note for note in done.notes)
    assert any("goes back over 2 earlier batches: Ridge of 2026" in note for note in done.notes)


def test_a_part_stands_once_in_a_blend_however_it_is_named(house: BuiltHouse) -> None:
    """Twice it would be drawn twice; what is missing the second time nobody could name."""
    house.container("Blue 1")
    house.load("Creek", 300_000, "Tank 1")
    blue = house.do(Fill("Tank 1", Weight(net_g=200_000), container="Blue 1")).codes[-1]
    seed = house.do(Supply("Spice Trade", "ingredient", "Seed", Weight(net_g=9_000))).codes[0]
    twice = "{} stands twice on this list. Leave it there once, with its whole amount."
    for parts, named in (
        ((_part(blue, 150_000), _part(blue, 150_000)), "Blue 1"),
        ((_part(blue, 50_000), _part("Blue 1", 50_000)), "Blue 1"),
        ((_part("Tank 1", 20_000), _part("tank 1", 20_000)), "Tank 1"),
        ((_part(seed, 2_000), _part(seed, 1_000)), seed),
    ):
        refusal = refusal_of(house, Blend("Blend tank", parts))
        assert (refusal.field, refusal.text) == ("parts", twice.format(named))
    _sound(house)
