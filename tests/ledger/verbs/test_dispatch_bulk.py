"""Dispatch in bulk: papers of a truck, somebody else's honey, and a whole load that comes back."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.drums import Bung, Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import BuyersWeight, TransferTitle
from tests.support.books import code_in, holding, mark, origins, standing, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1 and 500 kg of Hill in Tank 2; three customers."""
    house = BuiltHouse()
    for yard, vessel, grams in (("Creek", "Tank 1", 900_000), ("Hill", "Tank 2", 500_000)):
        house.yard(yard)
        house.vessel(vessel)
        house.load(yard, grams, vessel)
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    for name in ("Corner Shop", "Packer", "Store"):
        house.do(Register("customer", {"name": name}))
    return house


def _send(house: BuiltHouse, customer: str, *codes: str, **more: object) -> str:
    lines = tuple(DispatchLine(code) for code in codes)
    return code_in(house.do(Dispatch(customer, lines, **more)), "N")


def test_a_note_keeps_what_the_papers_of_a_truck_ask_for(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    note = _send(
        house,
        "Packer",
        drum,
        contract="C 2026/4",
        vehicle="KLR 114, trailer 9",
        freight_container="CSQU3054383",
        seals=("88101", "88102"),
        consignor="Store",
    )
    assert mark(house, f"note/{note}", "dispatched") == {
        "to": "customer/packer",
        "contract": "C 2026/4",
        "vehicle": "KLR 114, trailer 9",
        "freight_container": "CSQU3054383",
        "seals": ["88101", "88102"],
        "consignor": "customer/store",
    }
    assert mark(house, drum, "consignor") == "customer/store"
    assert mark(house, drum, "owner") is None


def test_title_may_go_over_with_a_dispatch(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    _send(house, "Store", drum, owner="Packer")
    assert mark(house, drum, "owner") == {"owner": "customer/packer", "by": "O26-0001-X"}


def test_somebody_elses_drum_leaves_on_their_word_only(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    house.do(TransferTitle((drum,), "Packer", "INV 12"))
    lines = (DispatchLine(drum),)
    said = house.house.preview(Dispatch("Store", lines)).facts["notes"]
    assert said[0][1] == (
        f"{drum} belongs to Packer: it leaves on their word only. Say in whose name it goes, or "
        "that title goes over."
    )
    for facts in (
        Dispatch("Packer", lines),
        Dispatch("Store", lines, consignor="Packer"),
        Dispatch("Store", lines, owner="Store"),
    ):
        assert "notes" not in house.house.preview(facts).facts


def test_a_tanker_is_filled_from_several_tanks_and_a_tote(house: BuiltHouse) -> None:
    """Its compartments are filled part by part, closed, sealed and sent like drums."""
    house.container("Tote 4", sort="tote", usual_g=400_000, limit_g=1_400_000)
    tote = house.do(Fill("Tank 2", Weight(net_g=300_000), container="Tote 4")).codes[-1]
    for name in ("Front", "Rear"):
        house.container(name, sort="compartment", usual_g=500_000, limit_g=8_000_000)
    into_front = (("Tank 1", 400_000), ("Tank 2", 150_000))
    for source, grams in into_front:
        house.do(Fill(source, Weight(net_g=grams), container="Front", bung=False))
    house.do(Fill("Tote 4", container="Rear", whole=True, bung=False))
    house.do(Fill("Tank 1", Weight(net_g=450_000), container="Rear", bung=False))
    front, rear = (house.do(Bung(name)).codes[-1] for name in ("Front", "Rear"))
    assert sorted(origins(house, front).values()) == [150_000, 400_000]
    assert origins(house, rear)[tote] == 300_000
    assert house.shares(front) == {"Creek": 400 / 550, "Hill": 150 / 550}
    note = _send(house, "Packer", front, rear, vehicle="KLR 114", seals=("7", "8", "9"))
    assert holding(house, rear) == {"Packer": (750_000, 0)}
    # The next load in the same tanker asks whether it was washed since.
    facts = Fill("Tank 1", Weight(net_g=10_000), container="Front", bung=False)
    assert turned_down(house, facts).startswith(f"Front held {front} before.")
    house.do(BuyersWeight(note, Weight(net_g=1_297_400)))
    assert sum(holding(house, code)["Packer"][0] for code in (front, rear)) == 1_297_400


def test_a_refused_load_comes_back_by_its_note(house: BuiltHouse) -> None:
    """Drums, jars and all, in one entry; what stayed with the customer before is not touched."""
    drum, other = house.drum("Tank 1", 290_000), house.drum("Tank 1", 200_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 2")), "J")
    house.do(Bottle(jars, 100))
    house.do(Dispatch("Packer", (DispatchLine(jars, jars=30), DispatchLine(drum, net_g=90_000))))
    lines = (DispatchLine(drum), DispatchLine(other), DispatchLine(jars, jars=20))
    note = code_in(house.do(Dispatch("Packer", lines)), "N")
    house.do(TakeBack("Packer", jars, "dented", jars=45))
    done = house.do(TakeBack("", note, "moisture above contract"))
    assert len(done.entries) == 1
    assert holding(house, drum) == {"Packer": (90_000, 0), f"drum/{drum}": (200_000, 0)}
    assert holding(house, other) == {f"drum/{other}": (200_000, 0)}
    assert holding(house, jars) == {"jars": (50_000, 100)}  # five of these twenty, with 45 before
    assert turned_down(house, TakeBack("Packer", note, "again")) != ""
    house.do(Reverse(done.entries[0].id, "the buyer took it after all"))
    assert holding(house, other) == {"Packer": (200_000, 0)}


def test_some_drums_of_a_load_come_back(house: BuiltHouse) -> None:
    drums = [house.drum("Tank 1", 290_000) for _ in range(3)]
    _send(house, "Packer", *drums)
    lines = tuple(DispatchLine(code) for code in drums[:2])
    house.do(TakeBack("Packer", "", "too dark", lines=lines))
    where = [next(iter(holding(house, code))) for code in drums]
    assert where == [f"drum/{drums[0]}", f"drum/{drums[1]}", "Packer"]


def test_what_comes_back_by_its_note_weighs_what_the_buyer_says(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    note = _send(house, "Packer", drum)
    house.do(BuyersWeight(note, Weight(net_g=289_500)))
    house.do(TakeBack("Packer", note, "too dark"))
    assert holding(house, drum) == {f"drum/{drum}": (289_500, 0), "difference": (500, 0)}
    heavier = house.drum("Tank 1", 290_000)
    note = _send(house, "Packer", heavier)
    house.do(BuyersWeight(note, Weight(net_g=290_200)))
    house.do(TakeBack("Packer", note, "too dark"))
    # Nothing of it stays with them, though more came back than was sent.
    assert holding(house, heavier) == {f"drum/{heavier}": (290_200, 0), "difference": (-200, 0)}


def test_what_comes_back_may_still_be_theirs(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    _send(house, "Packer", drum, owner="Packer")
    assert house.do(TakeBack("Packer", drum, "to be stored here")).notes == (
        f"By the books {drum} still belongs to Packer: transfer its title back, if it is the "
        "house's again.",
    )


def test_what_taking_back_several_refuses(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    note = _send(house, "Packer", drum)
    lines = (DispatchLine(drum), DispatchLine(drum))
    assert turned_down(house, TakeBack("Packer", "", "dark", lines=lines)) == (
        f"{drum} stands twice on this list. Leave it there once, with its whole amount."
    )
    assert turned_down(house, TakeBack("Packer", "", "dark")) == (
        "Scan what came back, or the dispatch note it went on."
    )
    assert turned_down(house, TakeBack("Corner Shop", note, "dark")) == (
        f"Dispatch note {note} went to Packer, not to Corner Shop. Check the note."
    )
    house.do(TakeBack("", note, "dark"))
    assert turned_down(house, TakeBack("", note, "dark")) == (
        f"Packer has nothing of {note} in the books: check the code on what came back."
    )
    assert standing(house, f"drum/{drum}") == {drum: 290_000}
