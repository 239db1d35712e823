"""What happened to a lot, one dated sentence an entry: the hot room and the by-products."""

from honeyledger.ledger.verbs.by_products import Chunk, Cut, Melt
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import Cappings, Load
from honeyledger.ledger.verbs.hot_room import Dry
from honeyledger.ledger.verbs.leftovers import SetAside
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.cards import lot_card
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Mill Lane")
    house.vessel("Line", sort="line")
    for name in ("Drainer", "Melter", "Tank"):
        house.vessel(name)
    house.do(Register("room", {"name": "Hot room"}))
    house.do(Register("product", {"name": "Chunk", "net_g": 450}))
    return house


def _sentences(house: BuiltHouse, code: str) -> list[str]:
    card = house.house.ask(lambda view: lot_card(view, code))
    return [told.sentence for told in card.history]


def test_a_pull_through_the_hot_room() -> None:
    house = _house()
    pull, tag = house.pull("Mill Lane", 148_000)
    house.do(Dry(tag, 1_930, 1_780, room="Hot room", hours=40))
    house.do(SetAside(tag, "green", count=2, note="one day more"))
    house.do(SetAside(tag, "set", "scrap", frames=9))
    house.do(SetAside(tag, "brood", "bees", count=1, yard="Mill Lane"))
    house.do(Load(tag, "Line"))
    house.do(SetAside(tag, "left over", count=3))
    dried = house.do(Dry(pull, 1_780, 1_800)).entries[0].id
    house.do(Reverse(dried, "one day less"))
    assert _sentences(house, pull) == [
        f"Received: 148.0 kg from Mill Lane on pallet {tag}; 10 supers.",
        f"Dried: 2.7 kg of water out of pallet {tag}; moisture 19.3 % before; 40 h in Hot "
        "room; moisture 17.8 %.",
        "Set aside: 2 supers, green, carried over, one day more.",
        f"Set aside: 14.5 kg from pallet {tag} thrown away; 9 frames, set in the comb, scrapped.",
        f"Set aside: 13.1 kg from pallet {tag} to bees of Mill Lane; 1 super, with brood, "
        "given to bees.",
        f"Loaded: 117.7 kg from pallet {tag} to Line.",
        f"Set aside: 39.2 kg from Line to pallet {tag}; 3 supers, left over, carried over.",
        f"Dried: 96 g of water back into pallet {tag}; moisture 17.8 % before; moisture 18.0 %.",
        f"Entry {dried} reversed: 96 g of water out of pallet {tag} (one day less).",
    ]


def test_wax_melter_honey_and_comb() -> None:
    house = _house()
    house.load("Mill Lane", 300_000, "Line")
    barrel = house.do(Cappings("Line", 40_000)).codes[0]
    house.pour(barrel, "Melter")
    melted = house.do(Melt("Melter", 12_000, 27_000, 1_000, temperature=720))
    fill, wax, honey = melted.codes
    assert _sentences(house, honey) == [f"Melted: 27.0 kg of {fill}; heated to 72.0 °C."]
    assert _sentences(house, fill) == [
        f"Melted: 40.0 kg of {barrel}; 1.0 kg thrown away; 12.0 kg into {wax}; "
        f"27.0 kg into {honey}."
    ]
    pull, tag = house.pull("Mill Lane", 100_000)
    comb = code_in(house.do(Cut(tag, 240, 81_600, drained_g=18_400, into="Tank")), "K")
    chunk = code_in(house.do(Chunk("Chunk", comb, 24, "Tank", 48, 10_000)), "K")
    drained = next(row.code for row in house.back(chunk).lots if row.kind == "T")
    assert _sentences(house, comb) == [
        f"Cut: 81.6 kg of {pull} into the jar store; 240 pieces.",
        f"Chunk honey: 8.2 kg into {chunk}.",
    ]
    assert _sentences(house, chunk) == [
        f"Chunk honey: 18.2 kg of {comb} (8.2 kg) and {drained} (10.0 kg) into the jar store; "
        "48 jars."
    ]
