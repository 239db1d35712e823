"""What is said of a note before it is signed, after a scan, and once it is recorded."""

from dataclasses import replace

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dispatch.picking import Scanned
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked
from honeyledger.desktop.stations.dispatch.words import note_messages, scan_message, sent_message
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.services.house import Said
from tests.desktop.stations.dispatch.pages import DRUM, HELD, NEW, OLD, PAGE
from tests.support.houses import BuiltHouse


def _note(*picked: Picked) -> NoteTyped:
    return NoteTyped("Corner Shop", picked=picked)


def test_what_is_to_be_known_before_a_note_is_signed() -> None:
    note = _note(
        Picked(NEW.code, "J", jars="5"),
        Picked(HELD.code, "J", jars="5"),
        Picked("D26-0050-V", "D"),
        Picked(DRUM.code, "D"),
    )
    assert note_messages(note, PAGE) == [
        Message(
            Mark.WARNING,
            "J26-0001-L is older",
            "than J26-0002-J and is here still: the oldest goes first.",
        ),
        Message(Mark.HOLD, "On hold.", "Mill Lane: treated"),
        Message(Mark.WARNING, "D26-0050-V", "is no longer here."),
    ]


@pytest.mark.parametrize(
    ("picked", "what", "words"),
    [
        (Picked(DRUM.code, "D"), Scanned.ADDED, "is on the note: 280.0 kg."),
        (Picked(OLD.code, "J"), Scanned.ADDED, "of Clover 500 g: how many go?"),
        (
            Picked(DRUM.code, "D"),
            Scanned.TWICE,
            "is on this note already; nothing was added.",
        ),
        (
            Picked(OLD.code, "J", jars="5"),
            Scanned.COUNTED,
            "is on this note by count: change the number if more go.",
        ),
        (
            Picked(OLD.code, "J", jars="2", serials=(1, 2)),
            Scanned.ANOTHER_JAR,
            "jars 00001, 00002",
        ),
    ],
)
def test_what_a_scan_did_is_said(picked: Picked, what: Scanned, words: str) -> None:
    message = scan_message(picked, what, PAGE.on_shelf(picked.code), PAGE)
    assert (message.lead, message.text) == (picked.code, words)
    unseen = scan_message(picked, Scanned.ADDED, None, PAGE)
    assert unseen.text == "is on the note."


def test_what_was_signed_is_said_and_can_be_reversed() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    drum = house.drum("Tank 1", 280_000)
    facts = Dispatch("gate", (DispatchLine(drum),))
    done = house.house.record(facts, Said(command="once"))
    note = NoteTyped("gate", picked=(Picked(drum, "D"),))
    message = sent_message(note, done, "kg")
    assert message.lead == "N26-0001-R is signed: 1 lot, 280.0 kg to the farm gate."
    assert (message.action, message.about) == ("Reverse", done.entries[0].id)
    again = house.house.record(facts, Said(command="once"))
    entry = done.entries[0].id
    assert sent_message(note, again, "kg").lead == (
        f"N26-0001-R was signed already, as entry {entry}: it is kept once."
    )
    assert replace(message, lead="").text == ""
