"""Whatever a code names has a card: a lot, a pallet, a yard, a vessel, a run."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.ledger.verbs.leftovers import SetAside
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import FeedYard, SupersOn, Treat
from honeyledger.services.cards import LotCard
from honeyledger.services.place_cards import PlaceCard, any_card
from tests.ledger.test_units import number_house
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _card(house: BuiltHouse, code: str) -> PlaceCard:
    found = house.house.ask(lambda view: any_card(view, code, house.now_ms))
    assert isinstance(found, PlaceCard)
    return found


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def test_a_lot_has_the_card_of_a_lot(house: BuiltHouse) -> None:
    code, _ = house.pull(house.yard("Mill Lane"), 100_000)
    found = house.house.ask(lambda view: any_card(view, code.lower(), house.now_ms))
    assert isinstance(found, LotCard)
    assert found.code == code


def test_a_pallet_says_what_stands_on_it_and_what_was_done_there(house: BuiltHouse) -> None:
    house.yard("Mill Lane")
    house.yard("Long Field")
    lines = (Line("Mill Lane", 20), Line("Long Field", 16))
    done = house.do(Receive(lines, condition="mixed", moisture=1720))
    tag = next(code for code in done.given if code[0] == "G")
    card = _card(house, tag)
    assert (card.noun, card.pieces, card.moisture, card.prints) == ("pallet tag", 36, 1720, True)
    assert [row.code for row in card.standing] == list(done.codes)
    assert card.facts == (("condition", "mixed"), ("yard", "Mill Lane"), ("yard", "Long Field"))
    assert [one.kind for one in card.history] == ["receive"]
    line = house.vessel("Line", sort="line")
    house.do(Load(tag, line))
    after = _card(house, tag)
    assert (after.standing, after.prints) == ((), False)
    assert [one.kind for one in after.history] == ["receive", "load"]


def test_a_held_pallet_says_so(house: BuiltHouse) -> None:
    code, tag = house.pull(house.yard("Mill Lane"), 100_000)
    house.do(PutOnHold(code, "smells of smoke"))
    assert _card(house, tag).holds == (f"{code}: smells of smoke",)


def test_a_yard_says_its_record_and_its_season(house: BuiltHouse) -> None:
    yard = house.yard("Mill Lane", colonies=30, forage="clover", latitude=500_000_000)
    house.pull(yard, 100_000, count=10)
    card = _card(house, yard)
    assert (card.noun, card.name, card.prints) == ("yard", "Mill Lane", True)
    assert card.facts == (
        ("colonies", "30"),
        ("forage", "clover"),
        ("pulls this season", "1"),
        ("supers this season", "10"),
        ("honey this season", "≈ 100 kg"),
    )
    assert [one.kind for one in card.history] == ["receive"]


def test_a_yard_says_what_was_written_down_of_it_by_its_dates(house: BuiltHouse) -> None:
    yard = house.yard("Mill Lane")
    house.do(SupersOn(yard, 40, "2026-07-01", "medium"))
    done = house.do(Treat(yard, "Formic pads", clear_day="2026-08-20", supers_on=False))
    undone = house.do(FeedYard(yard, "syrup", supers_on=False))
    house.do(Reverse(undone.entries[0].id, "another yard"))
    card = _card(house, yard)
    assert [(one.kind, one.sentence) for one in card.history] == [
        ("supers on", "1 Jul 2026: 40 medium supers put on."),
        ("treatment", "Treated with Formic pads, not clear until 20 Aug 2026."),
    ]
    assert card.history[1].entry == done.entries[0].id, "it can be taken back from there"


def test_a_vessel_and_a_container_are_told_apart(house: BuiltHouse) -> None:
    line = house.vessel("Line", sort="line")
    tank = house.vessel("Tank", fed_by=line)
    drum = house.container("Drum 7", tare_g=17_500)
    assert _card(house, tank).noun == "vessel"
    assert ("fed by", "Line") in _card(house, tank).facts
    card = _card(house, drum)
    assert (card.noun, card.name) == ("container", "Drum 7")
    assert ("tare", "17.5 kg") in card.facts


def test_a_run_says_its_line_and_when(house: BuiltHouse) -> None:
    house.vessel("Line", sort="line")
    run = next(code for code in house.do(OpenRun("Line")).given if code[0] == "R")
    card = _card(house, run)
    assert card.noun == "run"
    assert [label for label, _ in card.facts] == ["line", "opened", "closed"]
    assert card.facts[2] == ("closed", "open")


def test_a_dispatch_note_says_who_got_what_on_which_truck(house: BuiltHouse) -> None:
    tank = house.vessel("Tank 1")
    house.load(house.yard("Mill Lane"), 400_000, tank)
    drum = house.drum(tank, 200_000)
    house.do(Register("customer", {"name": "Corner Shop"}))
    sent = Dispatch(
        "Corner Shop",
        (DispatchLine(drum),),
        "Own van",
        "PO 7",
        vehicle="LX 55",
        seals=("A1", "A2"),
    )
    done = house.do(sent)
    note = next(code for code in done.given if code[0] == "N")
    card = _card(house, note)
    assert (card.noun, card.prints) == ("dispatch note", True)
    facts = dict(card.facts)
    assert (facts["to"], facts["their order"], facts["carrier"]) == (
        "Corner Shop",
        "PO 7",
        "Own van",
    )
    assert (facts["vehicle"], facts["seals"], facts["net"]) == ("LX 55", "A1, A2", "200.0 kg")
    assert facts[drum].endswith("200.0 kg")
    house.do(Reverse(done.entries[0].id, "mistyped"))
    assert _card(house, note).facts == (("state", "reversed"),)


def test_what_has_no_card_of_its_own_is_named(house: BuiltHouse) -> None:
    badge = house.do(Register("operator", {"name": "Ann"})).given[0]
    assert _card(house, badge).noun == "operator badge"


def test_a_code_nobody_was_given_is_refused_with_near_ones(house: BuiltHouse) -> None:
    _, tag = house.pull(house.yard("Mill Lane"), 100_000)
    misread = tag.replace("0001", "0007")
    with pytest.raises(Refusal, match="is not a code of this house") as refused:
        house.house.ask(lambda view: any_card(view, misread, house.now_ms))
    assert refused.value.offers == (tag,)
    with pytest.raises(Refusal, match="is not a code of this house"):
        house.house.ask(lambda view: any_card(view, "G26-0002-1", house.now_ms))


def test_what_was_set_aside_is_told_of_its_pallet_and_of_the_yard_whose_bees_got_it(
    house: BuiltHouse,
) -> None:
    house.yard("Mill Lane")
    field = house.yard("Long Field")
    pull, tag = house.pull("Mill Lane", 100_000)
    house.do(SetAside(tag, "green", count=3, note="one day more"))
    house.do(SetAside(tag, "brood", "bees", count=2, yard="Long Field"))
    assert [one.sentence for one in _card(house, tag).history[1:]] == [
        "Set aside: 3 supers, green, carried over, one day more.",
        f"Set aside: 20.0 kg from pallet {tag} to bees of Long Field; 2 supers, with brood, given "
        "to bees.",
    ]
    assert ("fed to its bees", f"20.0 kg of {pull}") in _card(house, field).facts


def test_a_case_says_its_number_its_pallet_and_what_is_or_was_in_it(house: BuiltHouse) -> None:
    number_house(house)
    house.yard("Creek")
    house.vessel("Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.load("Creek", 100_000, "Tank")
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(jars, 60))
    case, spare = house.do(Pack((PackLine(jars, 12),), copies=2)).given
    (pallet,) = house.do(Pack((PackLine(case),))).given
    number = dict(_card(house, case).facts)["number (SSCC)"]
    assert _card(house, case).facts == (
        ("number (SSCC)", number),
        ("on pallet", pallet),
        (jars, "Clover, 12 jars"),
    )
    assert _card(house, f"]C100{number}") == _card(house, case)
    assert _card(house, case).prints
    house.do(Dispatch("Shop", (DispatchLine(pallet),)))
    assert _card(house, pallet).facts[0] == ("state", "left the house")
    assert _card(house, pallet).facts[2] == (jars, "Clover, 12 jars")
    house.do(Unpack(spare, "broken"))
    emptied = _card(house, spare)
    assert (emptied.facts[0], emptied.prints) == (("state", "empty"), False)
