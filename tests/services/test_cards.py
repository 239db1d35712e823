"""The card of a lot, and its history as dated sentences told from the lot's side."""

from honeyledger.domain.moments import format_moment
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Narrow, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Count, Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import Cappings, Load
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.cards import LotCard, gap_words, lot_card
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _card(house: BuiltHouse, code: str) -> LotCard:
    return house.house.ask(lambda view: lot_card(view, code))


def _sentences(house: BuiltHouse, code: str) -> list[str]:
    return [told.sentence for told in _card(house, code).history]


def test_a_pulls_history_from_the_yard_to_the_tank() -> None:
    house = BuiltHouse()
    mill, field = house.yard("Mill Lane"), house.yard("Long Field")
    tank = house.vessel("Tank")
    done = house.do(Receive((Line(mill, 10),), gross_g=235_000, moisture=1740))
    pull, tag = done.codes[0], next(code for code in done.given if code[0] == "G")
    house.do(Count(tag, 9))
    house.do(Load(tag, tank))
    house.drum(tank, 100_000)
    house.do(Amend(lot=pull, yard=field, reason="sheets swapped"))
    house.do(Narrow(pull, "the crew was there", place=mill))
    assert _sentences(house, pull) == [
        f"Received: 160.0 kg from Mill Lane on pallet {tag}; 10 supers; moisture 17.4 %.",
        f"Counted again: 16.0 kg less on pallet {tag}.",
        f"Loaded: 144.0 kg from pallet {tag} to Tank.",
        "Filled: 144.0 kg into T26-0001-0.",
        "Amended: from Long Field, not Mill Lane (sheets swapped).",
        "Reach narrowed: not from Mill Lane (the crew was there).",
    ]
    card = _card(house, pull)
    assert (card.noun, card.made_g, card.on_hand_g, card.moisture) == ("pull", 160_000, 0, 1740)
    assert [(row.name, row.share) for row in card.yards] == [("Long Field", 1.0)]
    assert dict(card.facts)["yard"] == "Long Field, amended from Mill Lane"
    assert dict(card.facts)["pulled"] == "24 Jul 2026"


def test_what_was_amended_is_on_the_card_of_what_was_made_of_it() -> None:
    house = BuiltHouse()
    house.yard("Mill Lane")
    house.yard("Long Field")
    house.vessel("Tank")
    pull = house.load("Mill Lane", 160_000, "Tank")
    drum = house.drum("Tank", 100_000)
    house.do(Amend(lot=pull, yard="Long Field", reason="sheets swapped"))
    card = _card(house, drum)
    assert [(row.name, row.share, row.how) for row in card.yards] == [
        ("Long Field", 1.0, ("grams", "amended")),
        ("Mill Lane", 0.0, ("amended",)),
    ]
    assert _sentences(house, drum)[-1] == (
        f"{pull}: Amended: from Long Field, not Mill Lane (sheets swapped)."
    )


def test_a_drums_history_to_the_customer_and_back() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank")
    house.do(Register("customer", {"name": "Corner Shop"}))
    house.do(Register("operator", {"name": "Ann Reed"}))
    house.load(house.yard("Mill Lane"), 300_000, tank)
    done = house.do(Fill(tank, Weight(), pending=True), operator="O26-0001-A")
    drum = next(code for code in done.codes if code[0] == "D")
    assert _card(house, drum).pending
    house.do(Reweigh(drum, Weight(net_g=288_000)))
    house.do(Measure(drum, colour=340, temperature=245))
    note = house.do(Dispatch("Corner Shop", (DispatchLine(drum),))).given[0]
    house.do(TakeBack("Corner Shop", drum, "too dark"))
    card = _card(house, drum)
    assert [told.sentence for told in card.history] == [
        f"Filled: 290.0 kg of {done.codes[0]}; weight to follow.",
        f"Weighed again: 2.0 kg less in drum {drum} than the books saw; net 288.0 kg.",
        "Measured: colour 34 mm; temperature 24.5 °C.",
        f"Dispatched: 288.0 kg from drum {drum} to Corner Shop; on dispatch note {note}.",
        f"Taken back: 288.0 kg from Corner Shop to drum {drum} (too dark).",
    ]
    assert card.history[0].by == "Ann Reed"
    assert format_moment(card.history[0].happened) == format_moment(card.made)
    assert not card.pending
    assert [(row.where, row.grams) for row in card.standing if row.grams > 2_000] == [
        (f"drum {drum}", 288_000)
    ]


def test_a_jar_lots_card() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank")
    house.do(Register("product", {"name": "Jar 500", "net_g": 500}))
    house.load(house.yard("Mill Lane"), 300_000, tank)
    drum = house.drum(tank, 200_000)
    lot = house.do(ChangeOver(product="Jar 500", feed=drum)).given[0]
    house.do(Bottle(lot, 300))
    card = _card(house, lot)
    assert dict(card.facts) == {"product": "Jar 500", "jars": "300"}
    assert [told.sentence for told in card.history] == [
        f"Bottled: 150.0 kg of {drum} into the jar store; 300 jars."
    ]
    assert "150.0 kg into " + lot in _sentences(house, drum)[-1]
    jar = house.back(lot)
    assert jar.made_g == card.made_g


def test_late_origins_holds_and_reversals_are_told() -> None:
    house = BuiltHouse(margin_min=60)
    tank = house.vessel("Tank")
    mill = house.yard("Mill [north]")
    house.load(mill, 300_000, tank)
    drum = house.drum(tank, 100_000)
    late = house.load(house.yard("Long Field"), 100_000, tank)
    fill = next(row.code for row in house.back(drum).lots if row.kind == "T")
    (loose,) = _card(house, fill).in_reach_only
    assert (loose.code, loose.late) == (late, True)
    assert f"Loaded: {late} in its reach." in _sentences(house, fill)
    assert f"in the reach of {fill}" in _sentences(house, late)[-1]
    house.do(PutOnHold(mill, "residue"))
    pull = next(row.code for row in house.back(drum).lots if row.kind == "S" and row.code != late)
    words = f"Mill [north], by way of {pull}, {fill}: residue"
    assert _card(house, drum).holds == (words,)
    assert _card(house, pull).holds == ("Mill [north]: residue",)
    entry = house.do(Reweigh(drum, Weight(net_g=99_000))).entries[0].id
    reversal = house.do(Reverse(entry, "wrong drum")).entries[0].id
    told = {one.entry: one for one in _card(house, drum).history}
    assert told[entry].reversed_by == reversal
    assert told[reversal].sentence == (
        f"Entry {entry} reversed: 1.0 kg from weighing difference to drum {drum} (wrong drum)."
    )


def test_a_topped_up_drums_label_is_void() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank")
    container = house.container("Blue 7")
    house.load(house.yard("Mill Lane"), 300_000, tank)
    old = house.drum(
        tank,
        100_000,
    )
    first = next(
        code
        for code in house.do(Fill(tank, Weight(net_g=50_000), container=container)).codes
        if code[0] == "D"
    )
    house.do(Fill(tank, Weight(net_g=50_000), container=container, top_up=True))
    card = _card(house, first)
    assert card.label_void
    assert card.history[-1].sentence.endswith("its label is void.")
    assert dict(card.facts)["container"] == "Blue 7"
    assert not _card(house, old).label_void


def test_what_was_amended_is_told_as_it_is_and_as_it_was() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank")
    seven, _ = house.container("Blue 7"), house.container("Blue 12")
    for name in ("Summer 500", "Clover 500"):
        house.do(Register("product", {"name": name, "net_g": 500}))
    house.load(house.yard("Mill Lane"), 300_000, tank)
    drum = house.do(Fill(tank, Weight(net_g=200_000), container=seven)).codes[-1]
    house.do(Amend(lot=drum, container="Blue 12", reason="read at the rack"))
    house.do(Amend(lot=drum, filled_on="2026-07-23", reason="the label says so"))
    facts = dict(_card(house, drum).facts)
    assert facts["container"] == "Blue 12, amended from Blue 7"
    assert facts["filled on"] == "23 Jul 2026, amended"
    bottling = code_in(house.do(ChangeOver(product="Summer 500", feed=drum)), "J")
    house.do(Bottle(bottling, 300))
    assert dict(_card(house, bottling).facts)["product"] == "Summer 500"
    house.do(Amend(lot=bottling, product="Clover 500", reason="the roll says so"))
    facts = dict(_card(house, bottling).facts)
    assert facts["product"] == "Clover 500, amended from Summer 500"


def test_what_the_scale_found_is_said_against_the_books() -> None:
    house = BuiltHouse()
    line = house.vessel("Line", sort="line")
    house.load(house.yard("Mill Lane"), 100_000, line)
    drum = house.drum(line, 100_000)
    barrel = code_in(house.do(Cappings(line, 46_000)), "W")
    assert _gaps(house, barrel) == ["46.0 kg more than the books saw"]
    assert _gaps(house, drum) == []
    house.do(Reweigh(drum, Weight(net_g=99_448)))
    assert _gaps(house, drum) == ["552 g less than the books saw"]


def _gaps(house: BuiltHouse, code: str) -> list[str]:
    return [gap_words(row.grams, "kg") for row in _card(house, code).standing if row.is_gap]
