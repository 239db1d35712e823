"""A dispatch note is found by its code, with what went on it."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.notes import find_note, is_note, lines_of
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Honey in a tank, and a customer."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("customer", {"name": "Packer"}))
    return house


def _refused(house: BuiltHouse, text: str) -> str:
    with pytest.raises(Refusal) as refused:
        house.house.ask(lambda view: find_note(view, text))
    return refused.value.text


def test_what_went_on_a_note(house: BuiltHouse) -> None:
    drums = [house.drum("Tank 1", grams) for grams in (290_000, 145_000)]
    lines = (DispatchLine(drums[1]), DispatchLine(drums[0], net_g=90_000))
    done = house.do(Dispatch("Packer", lines, contract="C 7"))
    code = code_in(done, "N")
    note = house.house.ask(lambda view: find_note(view, code.lower()))
    assert (note.code, note.customer, note.entry) == (code, "customer/packer", done.entries[0].id)
    assert note.said["contract"] == "C 7"
    rows = house.house.ask(lambda view: lines_of(view, note))
    assert [(row.lot.code, row.grams, row.jars) for row in rows] == [
        (drums[0], 90_000, 0),
        (drums[1], 145_000, 0),
    ]


def test_what_is_no_note(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    done = house.do(Dispatch("Packer", (DispatchLine(drum),)))
    note = code_in(done, "N")
    ask = house.house.ask
    texts = (note, drum, "Packer", "")
    said = [ask(lambda view, text=text: is_note(view, text)) for text in texts]
    assert said == [True, False, False, False]
    assert _refused(house, drum) == (
        f"{drum} is a drum, but a dispatch note is needed here. Scan that code instead."
    )
    assert _refused(house, "N26-0002-P").startswith("N26-0002-P is not a code of this house.")
    house.do(Reverse(done.entries[0].id, "wrong customer"))
    assert _refused(house, note) == (
        f"Dispatch note {note} was reversed: nothing went out on it. Look for its next."
    )


def test_a_misread_freight_container_is_said_and_kept(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    facts = Dispatch("Packer", (DispatchLine(drum),), freight_container="CSQU 305438-4")
    done = house.do(facts)
    assert done.notes == (
        "The last digit of container CSQU3054384 does not fit the others: read it again at its "
        "door.",
    )
    code = code_in(done, "N")
    note = house.house.ask(lambda view: find_note(view, code))
    assert note.said["freight_container"] == "CSQU 305438-4"
