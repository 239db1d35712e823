"""Bulk trade: samples and verdicts, the buyer's scale, title that goes over, empties owed."""

import pytest

from honeyledger.ledger.empties import is_out
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.quality import PutOnHold, Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import Approve, BuyersWeight, Empties, TransferTitle
from tests.support.books import (
    code_in,
    grams_at,
    holding,
    mark,
    place,
    postings,
    refusal_of,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1; two customers; two containers of the house."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    for name in ("Blue 1", "Blue 2"):
        house.container(name, tare_g=17_000)
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def _send(house: BuiltHouse, customer: str, *codes: str, **more: str) -> str:
    lines = tuple(DispatchLine(code) for code in codes)
    return code_in(house.do(Dispatch(customer, lines, **more)), "N")


def _in(house: BuiltHouse, container: str, grams: int = 200_000) -> str:
    facts = Fill("Tank 1", Weight(net_g=grams), container=container, washed=True)
    return house.do(facts).codes[-1]


# Samples and what the customer says of them.


def test_a_sample_for_a_customer_waits_for_the_verdict(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    facts = Sample((drum,), 250, purpose="before shipment", customer="Packer")
    sample = house.do(facts).codes[-1]
    waiting = f"Packer has not said yet what they think of sample {sample} of {drum}. "
    seen = house.house.preview(Dispatch("Packer", (DispatchLine(drum),)))
    assert [note[1] for note in seen.facts["notes"]] == [waiting + "Ask them first."]
    done = house.do(Approve(sample, reference="L-88"))
    assert done.entries[0].postings == ()
    assert mark(house, sample, "verdict") == {
        "customer": "customer/packer",
        "verdict": "approved",
        "reference": "L-88",
    }
    assert house.do(Dispatch("Packer", (DispatchLine(drum),))).notes == ()


def test_a_refused_sample_is_said_before_its_drum_leaves(house: BuiltHouse) -> None:
    drum, other = house.drum("Tank 1", 290_000), house.drum("Tank 1", 290_000)
    sample = house.do(Sample((drum, other), 200, customer="Packer")).codes[-1]
    verdict = house.do(Approve(sample, "refused", "HMF 44"))
    facts = Dispatch("Packer", (DispatchLine(drum),))
    said = f"Packer refused sample {sample} of {drum}: HMF 44. Ask them before it leaves."
    assert house.house.preview(facts).facts["notes"][0][1] == said
    # To another customer it goes without a word.
    assert "notes" not in house.house.preview(Dispatch("Corner Shop", facts.lines)).facts
    house.do(Reverse(verdict.entries[0].id, "read the wrong line"))
    assert house.house.preview(facts).facts["notes"][0][1].startswith("Packer has not said yet")


def test_what_approving_refuses(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    sample = house.do(Sample((drum,), 250)).codes[-1]
    assert turned_down(house, Approve(sample)) == (
        f"{sample} was drawn for no customer: say which customer judged it."
    )
    assert turned_down(house, Approve(sample, "fine", customer="Packer")) == (
        "fine is no verdict: say approved or refused."
    )
    assert turned_down(house, Approve(sample, "refused", customer="Packer")) == (
        "Give the reason in a word or two."
    )
    assert turned_down(house, Approve(drum, customer="Packer")) == (
        f"{drum} is a drum, but a sample is needed here. Scan that code instead."
    )
    house.do(Approve(sample, "Refused", "too dark", customer="Packer"))
    assert mark(house, drum, "offered/packer")["verdict"] == "refused"


# The buyer's scale.


def test_the_buyers_scale_is_right_and_the_gap_is_in_plain_sight(house: BuiltHouse) -> None:
    drums = [house.drum("Tank 1", 290_000), house.drum("Tank 1", 145_000)]
    note = _send(house, "Packer", *drums)
    done = house.do(BuyersWeight(note, Weight(net_g=434_130), reference="T 17"))
    assert done.notes == (
        f"The buyer's scale says 434.1 kg for {note}: 870 g less than the 435.0 kg of the books, "
        "0.20 %.",
    )
    assert postings(house, done) == {
        (drums[0], "Packer", -580),
        (drums[0], "difference", 580),
        (drums[1], "Packer", -290),
        (drums[1], "difference", 290),
    }
    assert mark(house, drums[0], "buyer's weight") == {"grams": 289_420, "reference": "T 17"}
    house.do(Reverse(done.entries[0].id, "another truck's ticket"))
    assert holding(house, drums[0]) == {"Packer": (290_000, 0)}


def test_a_second_ticket_goes_from_the_first(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    note = _send(house, "Packer", drum)
    house.do(BuyersWeight(note, Weight(gross_g=306_000, tare_g=17_000)))
    done = house.do(BuyersWeight(drum, Weight(net_g=289_500)))
    assert done.notes[0].endswith("500 g more than the 289.0 kg of the books, 0.17 %.")
    assert holding(house, drum) == {"Packer": (289_500, 0), "difference": (500, 0)}
    assert house.do(BuyersWeight(drum, Weight(net_g=289_500))).notes == ()


def test_a_weight_far_off_is_taken_and_asked_about(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    note = _send(house, "Packer", drum)
    said = house.do(BuyersWeight(note, Weight(net_g=131_542))).notes  # pounds read as kilograms
    assert said[1] == (
        "That is far for two scales: check gross against tare, pounds against kilograms, and "
        "whether it was this load."
    )


def test_a_drum_sent_in_two_parts_is_weighed_note_by_note(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    first = code_in(house.do(Dispatch("Packer", (DispatchLine(drum, net_g=100_000),))), "N")
    _send(house, "Packer", drum)
    done = house.do(BuyersWeight(first, Weight(net_g=99_800)))
    assert done.notes[0].startswith(f"The buyer's scale says 99.8 kg for {first}: 200 g less than")
    assert holding(house, drum)["Packer"] == (289_800, 0)


def test_what_the_buyers_scale_cannot_say(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 10))
    note = _send(house, "Packer", jars)
    weight = Weight(net_g=5_000)
    assert turned_down(house, BuyersWeight(note, weight)) == (
        f"Note {note} carries jars, which are sold by count. Give the buyer's weight of each drum "
        "on it by the drum's code."
    )
    assert turned_down(house, BuyersWeight(drum, weight)) == (
        f"No customer has anything of {drum} in the books. Enter its dispatch first, or check the "
        "code."
    )
    house.do(Dispatch("Packer", (DispatchLine(drum, net_g=90_000),)))
    house.do(Dispatch("Corner Shop", (DispatchLine(drum, net_g=100_000),)))
    assert turned_down(house, BuyersWeight(drum, weight)) == (
        f"{drum} is with Corner Shop and Packer: say whose scale it was that weighed it."
    )
    assert turned_down(house, BuyersWeight(drum)) == (
        "Type the net weight of the buyer's ticket, or its gross and tare."
    )
    house.do(BuyersWeight(drum, Weight(net_g=89_900), customer="Packer"))
    assert holding(house, drum)["Packer"] == (89_900, 0)
    note = _send(house, "Packer", drum)
    house.do(TakeBack("Packer", drum, "dented"))
    assert turned_down(house, BuyersWeight(note, weight)).startswith("No customer has anything of")


# Title.


def test_title_goes_over_and_the_drums_stay(house: BuiltHouse) -> None:
    drums = (house.drum("Tank 1", 290_000), house.drum("Tank 1", 290_000))
    done = house.do(TransferTitle(drums, "Packer", "INV 12"))
    assert done.entries[0].postings == ()
    for drum in drums:
        assert mark(house, drum, "owner") == {
            "owner": "customer/packer",
            "document": "INV 12",
            "by": "O26-0001-X",
        }
        assert holding(house, drum) == {f"drum/{drum}": (290_000, 0)}
    assert turned_down(house, TransferTitle(drums[:1], "Packer", "INV 13")) == (
        f"{drums[0]} belongs to Packer already. Leave it off this list."
    )
    back = house.do(TransferTitle(drums[:1], "House", "credit note 4"))
    assert turned_down(house, TransferTitle(drums[:1], "house", "x")) == (
        f"{drums[0]} belongs to Test House already. Leave it off this list."
    )
    house.do(Reverse(back.entries[0].id, "the credit note was for another drum"))
    assert mark(house, drums[0], "owner")["owner"] == "customer/packer"


def test_what_a_transfer_refuses(house: BuiltHouse) -> None:
    drum, other = house.drum("Tank 1", 290_000), house.drum("Tank 1", 290_000)
    nothing = "Scan the drums whose title goes over, once each."
    assert turned_down(house, TransferTitle((), "Packer", "INV 1")) == nothing
    assert turned_down(house, TransferTitle((drum, drum), "Packer", "INV 1")) == (
        f"{drum} stands twice on this list. Leave it there once, with its whole amount."
    )
    assert turned_down(house, TransferTitle((drum,), "Packer", " ")) == (
        "Name the document by which title goes over, such as the number of the invoice."
    )
    assert turned_down(house, TransferTitle((drum,), "Nobody", "INV 1")) == (
        "There is no customer or supplier called Nobody. Choose one, such as Corner Shop or "
        "Packer, or register it first."
    )
    house.do(PutOnHold(other, "smoke"))
    assert turned_down(house, TransferTitle((drum, other), "Packer", "INV 1")) == (
        f"{other} is on hold through {other}: smoke. It can go on only if a named person says why."
    )
    house.do(TransferTitle((other,), "Packer", "INV 1", despite_hold="they know of it"))
    house.pour(drum, "Tank 2")
    assert turned_down(house, TransferTitle((drum,), "Packer", "INV 1")).startswith(
        f"{drum} was poured into Tank 2"
    )


# Empties.


def _owed(house: BuiltHouse, container: str) -> str:
    where = place(house, container)
    out = house.house.ask(lambda view: is_out(view, where))
    return f"{out.customer} {out.lot} {out.note}" if out else ""


def test_a_container_is_owed_until_it_is_back(house: BuiltHouse) -> None:
    drum, other = _in(house, "Blue 1"), _in(house, "Blue 2")
    assert _owed(house, "Blue 1") == ""
    note = _send(house, "Packer", drum, other)
    assert _owed(house, "Blue 1") == f"customer/packer {drum} {note}"
    done = house.do(Empties("Packer", ("Blue 1", other)))
    assert done.notes == ()
    assert [_owed(house, name) for name in ("Blue 1", "Blue 2")] == ["", ""]
    house.do(Reverse(done.entries[0].id, "they stood here all along"))
    assert _owed(house, "Blue 2") == f"customer/packer {other} {note}"


def test_a_container_is_back_when_its_honey_is_and_when_it_is_filled(house: BuiltHouse) -> None:
    drum, other = _in(house, "Blue 1"), _in(house, "Blue 2")
    _send(house, "Packer", drum, other)
    house.do(TakeBack("Packer", drum, "too dark"))
    assert _owed(house, "Blue 1") == ""
    _in(house, "Blue 2", 100_000)
    assert _owed(house, "Blue 2") == ""


def test_a_compartment_of_a_tanker_is_owed_by_nobody(house: BuiltHouse) -> None:
    house.container("Front", sort="compartment", usual_g=200_000, limit_g=900_000)
    _send(house, "Packer", _in(house, "Front"))
    assert _owed(house, "Front") == ""


def test_empties_the_books_did_not_expect(house: BuiltHouse) -> None:
    drum, other = _in(house, "Blue 1"), _in(house, "Blue 2")
    _send(house, "Packer", drum)
    assert house.do(Empties("Corner Shop", ("Blue 1",))).notes == (
        "By the books Blue 1 was not with Corner Shop but with Packer. It counts as here from now "
        "on.",
    )
    assert house.do(Empties("Packer", ("Blue 1",))).notes == (
        "By the books Blue 1 was not with Packer but here. It counts as here from now on.",
    )
    assert turned_down(house, Empties("Packer", ("Blue 2",))) == (
        f"Blue 2 holds {other} with 200.0 kg in the books: it did not come back empty. Scan the "
        "right container, or record first what became of the honey."
    )
    assert turned_down(house, Empties("Packer", ())) == "Scan the containers that came back empty."
    assert refusal_of(house, Empties("Packer", ("Green 9",))).key == "unknown-name"


def test_empties_recorded_twice_are_noticed(house: BuiltHouse) -> None:
    _send(house, "Packer", _in(house, "Blue 1"))
    assert house.do(Empties("Packer", ("Blue 1",))).notes == ()
    assert house.do(Empties("Packer", ("Blue 1", "blue 1"))).notes == (
        "Blue 1 was recorded as back from Packer on 24 Jul 2026 already. If this is the same "
        "load, reverse this entry.",
    )
    assert house.do(Empties("Packer", ("Blue 1",), kept="bought by them")).notes == (
        "By the books Blue 1 was not with Packer but here. It counts as here from now on.",
    )


def test_a_container_that_never_comes_back(house: BuiltHouse) -> None:
    drum = _in(house, "Blue 1")
    _send(house, "Packer", drum)
    house.do(Empties("Packer", ("Blue 1",), kept="bought by them, invoice 9"))
    assert _owed(house, "Blue 1") == ""
    assert mark(house, place(house, "Blue 1"), "back") == {
        "from": "customer/packer",
        "kept": "bought by them, invoice 9",
    }
    assert grams_at(house, "customer/packer") == 200_000
