"""What a card says of a lot and of a place, in words."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.lot_card import CardFact, LotCardFacts
from honeyledger.desktop.stations.card.rows import card_facts, facts_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import Cappings
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import BuyersWeight
from honeyledger.services.cards import LotCard
from honeyledger.services.place_cards import any_card
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _facts(house: BuiltHouse, code: str) -> LotCardFacts:
    return house.house.ask(lambda view: facts_of(view, code, house.now_ms, "kg"))


def _drum() -> tuple[BuiltHouse, str]:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    house.load(house.yard("Mill Lane"), 300_000, tank)
    house.load(house.yard("Long Field"), 100_000, tank)
    return house, house.drum(tank, 200_000)


def test_a_drum_says_what_it_is_where_and_how_much_is_left() -> None:
    house, drum = _drum()
    house.do(Measure(drum, moisture=1720, colour=440))
    facts = _facts(house, drum)
    assert facts.kind == "Drum, filled 24 Jul 2026"
    assert facts.where.startswith("drum D26-0001")
    assert (facts.mark, facts.state) == (Mark.READY, "ready")
    assert facts.figures == (
        ("200.0 kg", "made"),
        ("200.0 kg", "left here"),
        ("17.2 %", "moisture"),
    )
    assert facts.pfund_mm == 44.0
    assert facts.can_print
    assert facts.can_trace


def test_origins_are_named_with_shares_that_add_up() -> None:
    house, drum = _drum()
    origins = _facts(house, drum).origins
    assert [(one.name, one.words) for one in origins] == [
        ("Mill Lane", "75.0 %"),
        ("Long Field", "25.0 %"),
    ]


def test_a_yard_that_is_in_reach_at_no_grams_is_not_called_nothing() -> None:
    house, drum = _drum()
    card = house.house.ask(lambda view: any_card(view, drum, house.now_ms))
    assert isinstance(card, LotCard)
    yards = (card.yards[0]._replace(share=1.0), card.yards[1]._replace(share=0.0))
    origins = card_facts(replace(card, yards=yards), "kg").origins
    assert [one.words for one in origins] == ["100.0 %", "in reach"]


def test_a_hold_a_void_label_and_an_unknown_source_are_told() -> None:
    house, drum = _drum()
    house.do(PutOnHold(drum, "sample to the laboratory"))
    card = house.house.ask(lambda view: any_card(view, drum, house.now_ms))
    assert isinstance(card, LotCard)
    facts = card_facts(replace(card, label_void=True, pending=True, reach_complete=False), "kg")
    assert (facts.mark, facts.state) == (Mark.HOLD, "on hold")
    assert [one.lead for one in facts.messages] == [
        "On hold.",
        "Not weighed yet.",
        "Take its label off.",
        "Origin not complete.",
    ]
    assert card_facts(replace(card, holds=(), label_void=True), "kg").state == "label void"


def test_a_drum_not_weighed_yet_says_so() -> None:
    house, _ = _drum()
    house.load(house.yard("Willow Bank"), 400_000, "Tank 1")
    done = house.do(Fill("Tank 1", Weight(), pending=True))
    facts = _facts(house, next(code for code in done.codes if code[0] == "D"))
    assert (facts.mark, facts.state) == (Mark.WARNING, "not weighed")


def test_what_the_scale_found_is_no_place_to_stand_at() -> None:
    house, drum = _drum()
    house.do(Register("customer", {"name": "Packer"}))
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    house.do(BuyersWeight(drum, Weight(net_g=199_600)))
    facts = _facts(house, drum)
    assert facts.where == "Packer"
    assert CardFact("By the scale", "400 g less than the books saw") in facts.facts
    house.load("Mill Lane", 60_000, "Tank 1")
    house.do(Fill("Tank 1", whole=True))
    barrel = code_in(house.do(Cappings("Tank 1", 4_000)), "W")
    house.do(Discard(barrel, "moths"))
    assert CardFact("By the scale", "4.0 kg more than the books saw") in (
        _facts(house, barrel).facts
    )


def test_the_history_is_newest_first_with_who_and_what_was_reversed() -> None:
    house, drum = _drum()
    wrong = house.do(Reweigh(drum, Weight(net_g=199_000)))
    house.do(Reverse(wrong.entries[0].id, "other drum"))
    history = _facts(house, drum).history
    assert history[0].entry > history[-1].entry
    taken = next(one for one in history if one.entry == wrong.entries[0].id)
    assert taken.is_reversed
    assert taken.sentence.endswith(f"Reversed by entry {wrong.entries[0].id + 1}.")
    assert all(one.sentence.count(" By ") == 1 for one in history)


def test_a_pallet_is_a_place_with_supers_and_no_colour() -> None:
    house = BuiltHouse()
    _, tag = house.pull(house.yard("Mill Lane"), 100_000, count=12)
    facts = _facts(house, tag)
    assert facts.kind == "Pallet tag"
    assert facts.where == "one lot stands here"
    assert facts.figures == (("12", "supers"), ("≈ 100.0 kg", "stands here"))
    assert facts.facts[0].value == "100.0 kg, 12 supers"
    assert facts.facts[1].value.startswith("24 Jul 2026")
    assert not facts.has_colour
    assert not facts.can_trace
    assert facts.can_print


def test_a_yard_is_traced_and_an_empty_tank_says_so() -> None:
    house = BuiltHouse()
    assert _facts(house, house.yard("Mill Lane")).can_trace
    assert _facts(house, house.vessel("Tank 1")).where == "nothing stands here"


def test_a_container_named_drum_7_is_not_called_drum_drum_7() -> None:
    house, _ = _drum()
    container = house.container("Drum 7", tare_g=17_000)
    done = house.do(Fill("Tank 1", Weight(net_g=50_000), container=container))
    facts = _facts(house, next(code for code in done.codes if code[0] == "D"))
    assert facts.where == "Drum 7"
