"""An open note says the facts it was scanned and typed as, and outlives the program as a draft."""

import pytest

from honeyledger.desktop.stations.dispatch.typed import (
    NoteTyped,
    Picked,
    Wanted,
    dispatch_facts,
    jars_of,
    line_facts,
    note_as_draft,
    note_from_draft,
    read_wanted,
    with_texts,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine

JARS = Picked("J26-0001-L", "J", jars="24 x 12")
DRUM = Picked("D26-0001-C", "D")


def test_a_note_says_whole_drums_jars_and_parts() -> None:
    part = Picked("D26-0002-A", "D", net="50,5")
    note = NoteTyped(" Corner Shop ", "PO 7 ", " Own van", (), (JARS, DRUM, part))
    assert dispatch_facts(note, "kg") == Dispatch(
        "Corner Shop",
        (
            DispatchLine("J26-0001-L", jars=288),
            DispatchLine("D26-0001-C"),
            DispatchLine("D26-0002-A", net_g=50_500),
        ),
        "Own van",
        "PO 7",
    )
    assert line_facts(part, "lb").net_g == 22_906


def test_a_note_says_on_what_it_is_loaded_and_the_seals_one_by_one() -> None:
    note = NoteTyped("Corner Shop", picked=(DRUM,))
    said = {"contract": " C 9", "vehicle": "LX 55 / TR 2 ", "seals": "A 104, A105;A106"}
    said |= {"freight_container": " HLBU 3 ", "consignor": "Hollow Bees", "owner": "Packer "}
    facts = dispatch_facts(with_texts(note, said), "kg")
    assert (facts.contract, facts.vehicle) == ("C 9", "LX 55 / TR 2")
    assert facts.seals == ("A 104", "A105", "A106")
    assert facts.freight_container == "HLBU 3"
    assert (facts.consignor, facts.owner) == ("Hollow Bees", "Packer")
    assert dispatch_facts(note, "kg").seals == ()
    assert NoteTyped(seals="A105").is_begun
    assert note_from_draft(note_as_draft(with_texts(note, said))) == with_texts(note, said)


@pytest.mark.parametrize(
    ("picked", "field", "sentence"),
    [
        (
            Picked("J26-0001-L", "J"),
            "jars",
            "Say how many jars of J26-0001-L go: type a number, or cases like 24 x 12.",
        ),
        (
            Picked("J26-0001-L", "J", jars="12,5"),
            "jars",
            "12,5 is not a whole number: type a number of jars, such as 24.",
        ),
        (
            Picked("D26-0001-C", "D", net="1.234"),
            "net_g",
            "1.234 can mean 1 kg 234 g or 1234 kg: type 1.2340 or 1234.",
        ),
    ],
)
def test_what_cannot_be_read_is_refused(picked: Picked, field: str, sentence: str) -> None:
    with pytest.raises(Refusal) as caught:
        dispatch_facts(NoteTyped("Packer", picked=(picked,)), "kg")
    assert (caught.value.field, caught.value.text) == (field, sentence)


def test_lines_are_found_replaced_and_taken_off() -> None:
    note = NoteTyped().with_picked(JARS).with_picked(DRUM).with_wanted("lots/D", 2)
    more = Picked("J26-0001-L", "J", jars="12")
    assert note.with_picked(more).picked == (more, DRUM)
    assert note.find("D26-0001-C") == DRUM
    assert note.find("D26-0009-9") is None
    assert note.with_wanted("lots/D", 3).wanted == (Wanted("lots/D", 3),)
    assert note.without("J26-0001-L").picked == (DRUM,)
    assert note.without("lots/D").wanted == ()


def test_a_note_is_begun_by_any_of_it() -> None:
    assert not NoteTyped(command="id-1").is_begun
    assert NoteTyped(carrier="van").is_begun
    assert NoteTyped(picked=(DRUM,)).is_begun
    assert NoteTyped(wanted=(Wanted("lots/D", 1),)).is_begun


def test_what_is_wanted_is_a_number_of_at_least_one() -> None:
    assert read_wanted("2x12", "Clover") == 24
    with pytest.raises(Refusal) as caught:
        read_wanted("0", "Clover")
    assert caught.value.text == (
        "Nothing of Clover is no order: type how many are wanted, at least 1."
    )
    assert jars_of(JARS) == 288
    assert jars_of(Picked("J26-0001-L", "J", jars="many")) is None


def test_a_draft_keeps_all_of_it_and_forgives_what_it_does_not_know() -> None:
    scanned = Picked("J26-0001-L", "J", jars="360", serials=(382, 741), is_span=True)
    wanted = (Wanted("product/clover", 264),)
    note = NoteTyped("Corner Shop", "PO 7", "van", wanted, (scanned, DRUM), "id-7")
    assert note_from_draft(note_as_draft(note)) == note
    kept = {**note_as_draft(note), "customer": 7, "later": "?", "wanted": "x", "picked": [3, {}]}
    assert note_from_draft(kept) == NoteTyped("", "PO 7", "van", (), (Picked("", ""),), "id-7")
    assert note_from_draft("nonsense") == NoteTyped()
