"""The hot room's forms: the facts each says, what it says when they are recorded."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, Reading
from honeyledger.desktop.stations.hot_room.asks import hot_room_forms, reads_otherwise, reasons
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.hot_room import Dry, RoomLog
from honeyledger.ledger.verbs.leftovers import WHYS, SetAside
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded
from tests.desktop.stations.hot_room.pages import HELD, OLD, PAGE, WET

READING = Reading("kg", date(2026, 7, 24), PAGE)
DONE = Recorded((), ())


def spec(kind: str) -> FormSpec:
    return next(one for one in hot_room_forms() if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts", "words"),
    [
        (
            "log",
            {"room": "Hot room", "temperature": "34", "humidity": "45,5", "note": "fan on"},
            [RoomLog("Hot room", 340, 4_550, "fan on")],
            "Hot room: 34.0 °C, 45.5 %.",
        ),
        (
            "log",
            {"room": "Loft", "stranger": "add", "humidity": "50"},
            [Register("room", {"name": "Loft"}), RoomLog("Loft", None, 5_000)],
            "Loft: 50.0 %.",
        ),
        (
            "dry",
            {
                "what": OLD.code,
                "before": "19,3",
                "after": "17.8",
                "room": "Hot room",
                "hours": "40",
            },
            [Dry(OLD.code, 1_930, 1_780, Weight(), "Hot room", 40)],
            f"{OLD.code} was dried.",
        ),
        (
            "dry",
            {"what": OLD.code, "before": "19.3", "after": "17.8", "despite": "off"},
            [Dry(OLD.code, 1_930, 1_780, despite_reading="the reading was off")],
            f"{OLD.code} was dried.",
        ),
        (
            "dry",
            {"what": OLD.code, "gross": "420.5"},
            [Dry(OLD.code, weight=Weight(gross_g=420_500))],
            f"{OLD.code} was dried.",
        ),
        (
            "aside",
            {"pallet": OLD.code, "count": "2", "why": "brood", "to": "bees", "yard": "Y26-0001-P"},
            [SetAside(OLD.code, "brood", "bees", 2, yard="Y26-0001-P")],
            f"2 supers of {OLD.code} set aside.",
        ),
        (
            "aside",
            {"pallet": OLD.code, "frames": "1", "why": "set", "yard": "left from before"},
            [SetAside(OLD.code, "set", "stays", None, 1)],
            f"One frame of {OLD.code} set aside.",
        ),
    ],
)
def test_each_form_says_its_facts(
    kind: str, values: dict[str, str], facts: list[Any], words: str
) -> None:
    typed = FormTyped(values)
    assert spec(kind).facts(typed, READING) == facts
    assert spec(kind).done(typed, DONE, READING) == words


def _asked(typed: FormTyped, reading: Reading = READING) -> list[str]:
    return [
        ask.key for ask in spec("aside").asks() if ask.shown is None or ask.shown(typed, reading)
    ]


def test_whose_bees_and_why_they_get_held_honey_is_asked_only_then() -> None:
    assert "yard" not in _asked(FormTyped({"to": "stays"}))
    assert "yard" in _asked(FormTyped({"to": "bees"}))
    held = FormTyped({"to": "bees", "pallet": HELD.code})
    assert "despite" in _asked(held)
    assert "despite" not in _asked(FormTyped({"to": "bees", "pallet": OLD.code}))
    assert "despite" not in _asked(held, Reading("kg", date(2026, 7, 24)))


def test_every_reason_of_the_ledger_can_be_chosen() -> None:
    assert tuple(reasons()) == WHYS


def test_a_moisture_that_is_not_what_was_read_asks_why_it_counts() -> None:
    """Within what two readings may differ by nothing is asked; nor of what cannot be read yet."""

    def asks(what: str, before: str) -> bool:
        return reads_otherwise(FormTyped({"what": what, "before": before}), READING)

    assert WET.moisture == 1_900
    assert [asks(WET.code, text) for text in ("", "18.5", "19,3", "dry")] == [False] * 4
    assert asks(WET.code.lower(), "18.2")
    assert asks("Tank 1", "18.2"), "of a vessel only the ledger knows"
    just_read = {"what": WET.code, "before": "20.1", "after": "18.8"}
    assert not reads_otherwise(FormTyped(just_read), READING), "it was read when it was dry"
