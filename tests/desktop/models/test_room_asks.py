"""A room by name, and one that is not on record yet."""

from dataclasses import dataclass
from datetime import date

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.models.room_asks import (
    ADD,
    MISTYPED,
    is_strange,
    room_ask,
    room_first,
    stranger_ask,
)
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dock import Choice


@dataclass(frozen=True)
class Page:
    rooms: tuple[Choice, ...] = (Choice("drum-room", "Drum room"),)


READING = Reading("kg", date(2026, 7, 24), Page())


def test_a_name_nobody_has_is_asked_about() -> None:
    assert not is_strange(FormTyped({"room": "drum ROOM"}), READING)
    assert not is_strange(FormTyped(), READING)
    assert is_strange(FormTyped({"room": "Loft"}), READING)
    assert not is_strange(FormTyped({"room": "Loft"}), Reading("kg", date(2026, 7, 24)))
    assert stranger_ask().shown is is_strange
    assert room_ask(part=3).part == 3


def test_it_is_added_only_where_that_is_said() -> None:
    typed = FormTyped({"room": "Loft"})
    assert room_first(typed, READING) == []
    assert room_first(typed.with_value("stranger", MISTYPED), READING) == []
    added = room_first(typed.with_value("stranger", ADD), READING)
    assert added == [Register("room", {"name": "Loft"})]
    known = FormTyped({"room": "Drum room", "stranger": ADD})
    assert room_first(known, READING) == []
