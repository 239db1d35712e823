"""Figures and times that seldom are get a note, and are booked all the same."""

import pytest

from honeyledger.ledger.plausible import usual_gap_g
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Count, Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Reweigh, Skim
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, WetOut
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """300 kg of Creek in Tank 1."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 300_000, "Tank 1")
    house.do(Register("customer", {"name": "Packer"}))
    return house


@pytest.mark.parametrize(
    ("gross_kg", "noted"),
    [(119, True), (120, False), (326, False), (327, True)],  # 4.44 to 25.16 kg a super
)
def test_supers_that_hold_much_else_than_their_boxes(
    house: BuiltHouse, gross_kg: int, noted: bool
) -> None:
    notes = house.do(Receive((Line("Creek", 10),), gross_g=gross_kg * 1000)).notes
    assert bool(notes) is noted
    if gross_kg == 119:
        assert notes == (
            "4.4 kg of honey a super is unusual, 14.8 kg is usual: check the gross weight, the "
            "tare and the count. It would fit if it was read in kilograms and typed as pounds.",
        )


def test_a_weight_that_was_pounds_is_told(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 6), Line("Creek", 4)), gross_g=493_000))
    assert done.notes == (
        "41.8 kg of honey a super is unusual, 14.8 kg is usual: check the gross weight, the tare "
        "and the count. It would fit if it was read in pounds and typed as kilograms.",
    )


def test_far_from_usual_by_any_unit(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 10),), gross_g=1_900_000))
    assert done.notes == (
        "182.5 kg of honey a super is unusual, 14.8 kg is usual: check the gross weight, the tare "
        "and the count.",
    )


def test_more_than_any_super_holds_is_refused(house: BuiltHouse) -> None:
    said = turned_down(house, Receive((Line("Creek", 4),), gross_g=99_999_999_000))
    assert said == (
        "99\u202f999\u202f999.0 kg for 4 supers would be 24\u202f999\u202f990.0 kg of honey in "
        "each: no super holds that. Weigh the pallet again, or correct the count."
    )


def test_nobody_said_what_a_box_usually_holds(house: BuiltHouse) -> None:
    house.do(Register("box", {"name": "odd", "tare_g": 6_000}))
    assert house.do(Receive((Line("Creek", 10, "odd"),), gross_g=90_000)).notes == ()


@pytest.mark.parametrize(("net_g", "noted"), [(190_000, False), (189_999, True), (90_700, True)])
def test_a_drum_that_weighs_much_else_than_before(
    house: BuiltHouse, net_g: int, noted: bool
) -> None:
    drum = house.drum("Tank 1", 200_000)
    notes = house.do(Reweigh(drum, Weight(net_g=net_g))).notes
    assert bool(notes) is noted
    if net_g == 90_700:
        assert notes == (
            f"{drum} weighed 200.0 kg by the books and 90.7 kg on the scale: check gross against "
            "tare, and pounds against kilograms.",
        )


def test_the_first_weight_of_a_drum_may_be_far_from_the_usual_one(house: BuiltHouse) -> None:
    drums = [house.do(Fill("Tank 1", pending=True)).codes[-1] for _ in range(2)]
    assert house.do(Reweigh(drums[0], Weight(net_g=150_000))).notes == ()
    assert house.do(Reweigh(drums[1], Weight(net_g=29_000))).notes != ()


@pytest.mark.parametrize(
    ("heel_g", "noted"), [(280_000, False), (240_000, False), (239_999, True), (0, True)]
)
def test_a_dip_far_from_the_books(house: BuiltHouse, heel_g: int, noted: bool) -> None:
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    notes = house.do(CloseRun(run, (Heel("Tank 1", heel_g),))).notes
    assert bool(notes) is noted
    if not heel_g:
        assert notes == (
            "The books saw 300.0 kg in Tank 1 and the dip says 0.0 kg: dip again, or look for a "
            "drum or a load that was not written down.",
        )


@pytest.mark.parametrize(
    ("heel_g", "noted"), [(270_000, False), (130_001, False), (129_999, True)]
)
def test_a_dip_that_a_long_run_explains(house: BuiltHouse, heel_g: int, noted: bool) -> None:
    """The tank has 300 kg and a run of 1,700: estimates and wet combs make a tenth of it."""
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    _, tag = house.pull("Creek", 1_400_000, count=60)
    house.do(Load(tag, "Tank 1"), run=run)
    house.do(Fill("Tank 1", weight=Weight(net_g=1_400_000)), run=run)
    house.do(Cappings("Tank 1", 1_000), run=run)
    heel = Heel("Tank 1", heel_g - 1_000)
    notes = house.do(CloseRun(run, (heel,))).notes
    assert any("dip again" in note for note in notes) is noted


def test_the_honey_of_cappings_not_weighed_yet_is_no_gap() -> None:
    assert usual_gap_g(1_700_000, cappings=True) == 170_000
    assert usual_gap_g(1_700_000, cappings=False) == 340_000


def test_a_count_far_from_the_books(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000, count=30)
    assert house.do(Count(tag, 25)).notes == ()
    assert house.do(Count(tag, 10)).notes == (
        f"{tag} had 25 supers by the books and has 10 now: count again, or look for a load or a "
        "split that was not written down.",
    )


def test_empties_that_weigh_too_little_or_too_much(house: BuiltHouse) -> None:
    assert house.do(WetOut(24, 170_000, 15_000)).notes == ()
    assert house.do(WetOut(24)).notes == ()
    assert house.do(WetOut(24, 39_000, 15_000)).notes == (
        "1.0 kg for one empty super is unusual: check the tare of the pallet, and pounds against "
        "kilograms.",
    )
    assert house.do(WetOut(2, 170_000, 15_000)).notes != ()


def test_a_load_before_its_pallet_came(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000, at_min=60)
    other, at_once = house.pull("Creek", 100_000, at_min=60)
    assert house.do(Load(tag, "Tank 1"), at_min=50).notes == (
        f"{pull} came in only on 24 Jul 2026 09:40, after this load: correct one of the two "
        "times.",
    )
    assert house.do(Load(at_once, "Tank 1"), at_min=60).notes == ()
    assert other != pull


def test_a_time_that_is_unsure_may_have_been_later(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000, at_min=60)
    assert house.do(Load(tag, "Tank 1"), at_min=50, unsure_ms=10 * 60_000).notes == ()


def test_a_drum_sent_before_it_was_filled(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000, at_min=60)
    done = house.do(Dispatch("Packer", (DispatchLine(drum),)), at_min=50)
    assert done.notes == (
        f"{drum} was made only on 24 Jul 2026 09:40, after it was sent: correct one of the two "
        "times.",
    )


@pytest.mark.parametrize(("net_g", "noted"), [(10_000, False), (45_000, False), (45_100, True)])
def test_foam_is_a_small_part_of_what_it_stands_on(
    house: BuiltHouse, net_g: int, noted: bool
) -> None:
    notes = house.do(Skim("Tank 1", net_g)).notes
    assert bool(notes) is noted
    if noted:
        assert notes == (
            "45.1 kg of foam was typed and the books saw 300.0 kg in Tank 1: check the weight, "
            "and pounds against kilograms.",
        )


def test_a_drum_weighed_before_it_was_filled(house: BuiltHouse) -> None:
    house.wait(60)
    drum = house.drum("Tank 1", 290_000)
    facts = Reweigh(drum, Weight(net_g=290_000))
    assert house.do(facts, at_min=10).notes == (
        f"{drum} was made only on 24 Jul 2026 09:48, after it was weighed: correct one of the two "
        "times.",
    )
    assert house.do(facts).notes == ()
