"""A drum list says what went on a note, or what drums hold now, with every tare that is known."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import TransferTitle
from honeyledger.services.drum_list import DrumList, drum_list
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1, a container, a customer, a supplier, a product."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.container("Blue 1", tare_g=17_000)
    for kind, name in (("customer", "Packer"), ("supplier", "S9")):
        house.do(Register(kind, {"name": name}))
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    return house


def _list(house: BuiltHouse, *codes: str) -> DrumList:
    return house.house.ask(lambda view: drum_list(view, codes))


def test_gross_tare_and_net_of_every_sort_of_drum(house: BuiltHouse) -> None:
    """The tare as weighed with the drum, as said when it came in, or as its container has it."""
    mine = house.do(Fill("Tank 1", Weight(net_g=200_000), container="Blue 1")).codes[-1]
    one_way = house.do(Fill("Tank 1", Weight(gross_g=308_000, tare_g=18_000))).codes[-1]
    weight = Weight(gross_g=163_000, tare_g=16_500)
    bought = house.do(Purchase("S9", weight, "L 7", "AR", certificate="C")).codes[-1]
    bare = house.drum("Tank 1", 100_000)
    house.do(Measure(mine, moisture=1740, colour=183))
    house.do(TransferTitle((one_way,), "Packer", "INV 1"))
    house.do(Reweigh(one_way, Weight(gross_g=307_500)))
    found = _list(house)
    assert (found.house, found.note, found.customer, found.sent) == ("Test House", "", "", None)
    rows = [
        (row.code, row.container, row.supplier_lot, row.gross_g, row.tare_g, row.net_g, row.owner)
        for row in found.rows
    ]
    assert rows == [
        (mine, "Blue 1", "", 217_000, 17_000, 200_000, ""),
        (one_way, "", "", 307_500, 18_000, 289_500, "Packer"),
        (bought, "", "L 7", 163_000, 16_500, 146_500, ""),
        (bare, "", "", None, None, 100_000, ""),
    ]
    assert (found.rows[0].moisture, found.rows[0].colour, found.rows[0].season) == (
        1740,
        183,
        2026,
    )
    assert (found.gross_g, found.net_g) == (None, 736_000)
    assert _list(house, one_way, one_way.lower(), mine).gross_g == 524_500
    head = house.house.ask(lambda view: view.head())
    assert found.head == f"{head.entry} {head.digest[:12].upper()}"


def test_a_note_lists_what_went_on_it_with_its_papers(house: BuiltHouse) -> None:
    drum, other = house.drum("Tank 1", 290_000), house.drum("Tank 1", 200_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 20))
    lines = (DispatchLine(drum, net_g=90_000), DispatchLine(other), DispatchLine(jars))
    facts = Dispatch("Packer", lines, contract="C 4", seals=("8", "9"), reference="PO 1")
    done = house.do(facts)
    note = code_in(done, "N")
    found = _list(house, note)
    assert [(row.code, row.net_g) for row in found.rows] == [(drum, 90_000), (other, 200_000)]
    assert (found.note, found.customer) == (note, "Packer")
    assert found.sent == done.entries[0].act.happened
    assert found.told == (("Their order", "PO 1"), ("Contract", "C 4"), ("Seals", "8, 9"))
    # What is sent is no more in the house; of a drum sent in part there is the rest.
    assert [(row.code, row.net_g) for row in _list(house).rows] == [(drum, 200_000)]
    assert _list(house, other).rows[0].net_g == 200_000


def test_a_weight_to_follow_is_none_yet(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", pending=True)).codes[-1]
    assert [(row.code, row.pending) for row in _list(house).rows] == [(drum, True)]


def test_what_cannot_be_listed(house: BuiltHouse) -> None:
    assert refused(lambda: _list(house)) == "There is no drum to list: the house has none."
    drum = house.drum("Tank 1", 290_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 20))
    note = code_in(house.do(Dispatch("Packer", (DispatchLine(jars),))), "N")
    assert refused(lambda: _list(house, note)) == (
        f"There is no drum to list: dispatch note {note} has none."
    )
    assert refused(lambda: _list(house, note, drum)) == (
        "List one dispatch note, or drums by their codes, not both at once."
    )
    assert refused(lambda: _list(house, jars)).startswith(f"{jars} is a jar lot, but a drum")


def test_a_composite_is_never_a_drums_own_reading_on_a_list(house: BuiltHouse) -> None:
    one, other = house.drum("Tank 1", 200_000), house.drum("Tank 1", 200_000)
    house.do(Measure(one, moisture=17_20))
    sample = house.do(Sample((one, other), 200)).codes[-1]
    house.do(Measure(sample, moisture=17_80, colour=340))
    found = [(row.code, row.moisture, row.colour) for row in _list(house).rows]
    assert found == [(one, 17_20, None), (other, None, None)]
