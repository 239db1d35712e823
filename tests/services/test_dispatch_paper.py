"""The paper of a note says what the ledger says, and no more."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_paper import DispatchNote, NotePaperLine, note_paper
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    product = {"name": "Clover", "net_g": 500, "keeps_months": 24}
    house.do(Register("product", product))
    house.do(Register("customer", {"name": "Packer", "place": "Dock Road 4"}))
    return house


def _paper(house: BuiltHouse, code: str) -> DispatchNote:
    return house.house.ask(lambda view: note_paper(view, code))


def _jars(house: BuiltHouse, jars: int = 100) -> str:
    done = house.do(ChangeOver(product="Clover", feed="Tank 1"))
    lot = next(code for code in done.given if code[0] == "J")
    house.do(Bottle(lot, jars))
    return lot


def _sent(house: BuiltHouse, *lines: DispatchLine, carrier: str = "", reference: str = "") -> str:
    return house.do(Dispatch("Packer", lines, carrier, reference)).given[0]


def test_a_note_says_who_what_and_under_which_lot(house: BuiltHouse) -> None:
    signer = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    house.container("Drum 7", tare_g=18_000)
    drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="Drum 7")).codes[-1]
    house.do(Measure(drum, moisture=1720, colour=340))
    jars = _jars(house)
    lines = (DispatchLine(drum), DispatchLine(jars, jars=40))
    done = house.do(Dispatch("Packer", lines, "Hill Haulage", "PO 7"), operator=signer)
    paper = _paper(house, done.given[0].lower())
    assert (paper.house, paper.customer, paper.customer_place) == (
        "Test House",
        "Packer",
        "Dock Road 4",
    )
    assert (paper.signed, paper.carrier, paper.reference) == ("Ann Reed", "Hill Haulage", "PO 7")
    assert paper.sent == done.entries[0].act.happened
    assert paper.lines == (
        NotePaperLine(
            drum,
            "Drum 7",
            "moisture 17.2 %, colour 34 mm Pfund",
            False,
            0,
            218_000,
            18_000,
            200_000,
        ),
        NotePaperLine(jars, "Clover", "500 g, best before end 2028", True, 40, None, None, 20_000),
    )
    assert (paper.jars, paper.net_g, paper.gross_g) == (40, 220_000, None)
    head = house.house.ask(lambda view: view.head())
    assert paper.head == f"{head.entry} {head.digest[:12].upper()}"


def test_a_part_of_a_drum_has_no_tare_and_one_way_drums_have_their_own(house: BuiltHouse) -> None:
    part = house.drum("Tank 1", 200_000)
    own = house.do(Fill("Tank 1", Weight(gross_g=118_000, tare_g=18_000))).codes[-1]
    code = _sent(house, DispatchLine(part.lower(), net_g=50_000), DispatchLine(own))
    first, second = _paper(house, code).lines
    assert (first.goods, first.gross_g, first.tare_g, first.net_g) == ("Drum", None, None, 50_000)
    assert (second.goods, second.gross_g, second.tare_g) == ("Drum", 118_000, 18_000)
    assert _paper(house, code).gross_g is None
    whole = house.do(Fill("Tank 1", Weight(gross_g=68_000, tare_g=18_000))).codes[-1]
    assert _paper(house, _sent(house, DispatchLine(whole))).gross_g == 68_000


def test_wax_is_called_what_it_is(house: BuiltHouse) -> None:
    wax = next(code for code in house.do(Cappings("Tank 1", 20_000)).codes if code[0] == "W")
    (line,) = _paper(house, _sent(house, DispatchLine(wax))).lines
    assert (line.goods, line.detail, line.tare_g) == ("Cappings and wax", "", None)


def test_what_is_no_note_that_stands_is_not_printed(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    done = house.do(Dispatch("Packer", (DispatchLine(drum),)))
    code = done.given[0]
    house.do(Reverse(done.entries[0].id, "wrong customer"))
    assert refused(lambda: _paper(house, code)) == (
        f"Dispatch note {code} was reversed: nothing went out on it. Look for its next."
    )
    assert refused(lambda: _paper(house, drum)) == (
        f"{drum} is a drum, but a dispatch note is needed here. Scan that code instead."
    )
    assert refused(lambda: _paper(house, "N26-0009-X")).startswith("N26-0009-X is ")


def test_in_whose_name_it_goes_and_whose_it_is_then(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    facts = Dispatch(
        "Packer", (DispatchLine(drum),), seals=("7", "8"), consignor="Packer", owner="Packer"
    )
    note = house.do(facts).given[0]
    assert _paper(house, note).more == (
        ("Seals", "7, 8"),
        ("Consignor", "Packer"),
        ("Owner from now on", "Packer"),
    )
