"""A stop of the line by one press: every reason is a button, and each is booked as said."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.extraction.stop_asks import stop_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.stops import REASONS, Stop

READING = Reading("kg", date(2026, 7, 24))
LINE = "E26-0001-W"


def test_every_reason_is_a_button() -> None:
    (why,) = (ask for ask in stop_form().asks() if ask.key == "reason")
    assert [key for key, _ in why.buttons] == list(REASONS)


@pytest.mark.parametrize("reason", REASONS)
def test_what_is_pressed_is_said(reason: str) -> None:
    typed = FormTyped({"line": LINE, "reason": reason, "minutes": "25", "why": "the seal"})
    assert stop_form().facts(typed, READING) == [Stop(LINE, reason, 25, "the seal")]


def test_minutes_are_a_whole_number() -> None:
    with pytest.raises(Refusal) as refused:
        stop_form().facts(FormTyped({"line": LINE, "minutes": "soon"}), READING)
    assert refused.value.field == "minutes"
