"""A lot's card and its sentences tell of title, samples, the buyer's scale, papers, rooms."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bought_in import Purchase, SendBack
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.opening import FoundDrum, OpeningStock
from honeyledger.ledger.verbs.quality import Release, Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move, Stocktake
from honeyledger.ledger.verbs.trade import Approve, BuyersWeight, TransferTitle
from honeyledger.services.cards import lot_card
from honeyledger.services.place_cards import PlaceCard, any_card
from tests.support.books import code_in, place
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1, a room, two customers, a supplier, a container."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.container("Blue 1")
    for kind, name in (
        ("customer", "Packer"),
        ("customer", "Store"),
        ("supplier", "S9"),
        ("room", "Drum room"),
    ):
        house.do(Register(kind, {"name": name}))
    return house


def _told(house: BuiltHouse, code: str) -> list[str]:
    card = house.house.ask(lambda view: lot_card(view, code))
    return [one.sentence for one in card.history]


def _facts(house: BuiltHouse, code: str) -> dict[str, str]:
    return dict(house.house.ask(lambda view: lot_card(view, code)).facts)


def test_a_stored_drum_is_sold_sampled_moved_and_sent(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    assert "owner" not in _facts(house, drum)
    sample = house.do(Sample((drum,), 250, customer="Packer")).codes[-1]
    house.do(Approve(sample, reference="L-88"))
    house.do(TransferTitle((drum,), "Packer", "INV 12"))
    house.do(Move((drum,), "Drum room", "B3"))
    assert _facts(house, drum) == {
        "owner": "Packer, since 24 Jul 2026 (INV 12)",
        "holder": "Test House",
        "stands in": "Drum room, row B3",
    }
    house.do(Stocktake("Drum room", "B3", (house.drum("Tank 1", 100_000),)))
    assert _facts(house, drum)["missing"] == "not found at the last walk"
    note = code_in(house.do(Dispatch("Store", (DispatchLine(drum),), consignor="Packer")), "N")
    house.do(BuyersWeight(note, Weight(net_g=289_000), reference="T 17"))
    facts = _facts(house, drum)
    assert facts["holder"] == "Store, since 24 Jul 2026"
    assert facts["consignor"] == "Packer, 24 Jul 2026"
    assert _told(house, drum)[1:] == [
        f"Sampled: 250 g into {sample}; sample {sample} is for Packer.",
        f"Judged: Packer approved sample {sample}.",
        "Title transferred: belongs to Packer (INV 12).",
        "Moved: in Drum room, row B3.",
        "Stocktake: not found there.",
        f"Dispatched: 289.8 kg from drum {drum} to Store; on dispatch note {note}; in the name of "
        "Packer.",
        "Weighed by the buyer: 750 g less with Store than the books saw; 289.0 kg on the buyer's "
        "scale (T 17).",
    ]
    assert _told(house, sample)[-1] == "Judged: approved by Packer (L-88)."
    assert _facts(house, sample)["customer"] == "Packer"


def test_a_refused_sample_says_why(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    sample = house.do(Sample((drum,), 250, customer="Packer")).codes[-1]
    house.do(Approve(sample, "refused", "HMF 44"))
    assert _told(house, drum)[-1] == f"Judged: Packer refused sample {sample} (HMF 44)."
    assert _told(house, sample)[-1] == "Judged: refused by Packer (HMF 44)."


def test_bought_honey_tells_of_its_papers_and_its_way_back(house: BuiltHouse) -> None:
    bought = house.do(Purchase("S9", Weight(net_g=145_000), "L 7", "AR")).codes[0]
    house.do(Release(bought, "it came by post", certificate="C 31"))
    facts = _facts(house, bought)
    assert (facts["supplier lot"], facts["country"], facts["certificate"]) == ("L 7", "AR", "C 31")
    house.do(SendBack((bought,), "20.4 %"))
    assert _told(house, bought) == [
        "Bought in: 145.0 kg from S9.",
        "Release: certificate C 31 (it came by post).",
        f"Sent back: 145.0 kg from drum {bought} to S9 (20.4 %).",
    ]


def test_drums_from_before_tell_what_stands_on_them(house: BuiltHouse) -> None:
    drum = house.do(OpeningStock(Weight(net_g=290_000), 2025, written="14/25")).codes[-1]
    assert _facts(house, drum)["written on it"] == "14/25"
    assert "“14/25” stands on it" in _told(house, drum)[0]
    found = house.do(FoundDrum(Weight(net_g=90_000), room="Drum room")).codes[-1]
    (told,) = _told(house, found)
    assert told.startswith("Found: 90.0 kg of S26-")
    assert told.endswith("; in Drum room.")


def test_a_containers_card_says_who_has_it(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="Blue 1")).codes[-1]
    note = code_in(house.do(Dispatch("Packer", (DispatchLine(drum),))), "N")
    code = place(house, "Blue 1").partition("/")[2]
    card = house.house.ask(lambda view: any_card(view, code, house.now_ms))
    assert isinstance(card, PlaceCard)
    moment = "24 Jul 2026 08:53"
    assert ("with", f"Packer, since {moment} on {note}") in card.facts
