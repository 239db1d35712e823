"""What the forms of the page of checks say."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.checks.asks import (
    check_forms,
    is_off,
    last_right,
    row_in,
    row_name,
)
from honeyledger.domain.checks import ListedCheck, State
from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.withholding import parse_interval
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.checks import CheckRow, ChecksPage
from honeyledger.services.checks_used import Used, UsedRow

NOW_MS = 1_784_882_400_000
SCALE = ListedCheck("scale", "Scale", "Zero.", parse_interval("1 day"), "scale")
RIGHT_AT = moment_at(NOW_MS - 3_600_000, "UTC")
ROW = CheckRow(SCALE, "E26-0001-X", "Drum scale", State.OFF, right_at=RIGHT_AT)
USED = Used(
    "E26-0001-X", "Drum scale", RIGHT_AT, (), (UsedRow("D26-0001-C", "drum", (), False),),
    ("D26-0001-C",), False,
)  # fmt: skip
PAGE = ChecksPage("l", "kg", "UTC", date(2026, 7, 24), NOW_MS, (ROW,), {ROW.key: USED})
READING = Reading("kg", date(2026, 7, 24), PAGE)
MADE, HELD = check_forms()


def test_a_check_made_says_which_it_was() -> None:
    typed = FormTyped({"check": ROW.key, "result": "ok", "value": "20.0", "note": "n"})
    assert row_in(typed, READING) is ROW
    assert row_name(ROW) == "Scale, Drum scale"
    assert MADE.facts(typed, READING) == [
        Check("E26-0001-X", "Scale", "ok", "20.0", "n", "scale", 0)
    ]


def test_since_when_is_the_last_time_it_was_right_unless_another_is_typed() -> None:
    assert last_right(ROW) == "24 Jul 2026 07:40"
    assert last_right(None) == ""
    off = {"check": ROW.key, "result": "off"}
    assert is_off(FormTyped(off))
    for since, wanted in (
        *(("", 0), (last_right(ROW), 0)),
        ("24 Jul 2026 08:00", NOW_MS - 40 * 60_000),
    ):
        (facts,) = MADE.facts(FormTyped({**off, "since": since}), READING)
        assert facts.since_ms == wanted
    (right,) = MADE.facts(FormTyped({"check": ROW.key, "since": "24 Jul 2026 08:00"}), READING)
    assert right.since_ms == 0


def test_one_hold_is_on_all_that_used_it() -> None:
    (hold,) = HELD.facts(FormTyped({"check": ROW.key}), READING)
    assert hold == PutOnHold(
        "E26-0001-X", "Drum scale found off on Scale since 24 Jul 2026 07:40", lots=("D26-0001-C",)
    )


def test_since_when_has_to_be_known_to_hold_anything() -> None:
    page = ChecksPage("l", "kg", "UTC", date(2026, 7, 24), NOW_MS, (ROW,), {})
    with pytest.raises(Refusal) as refused:
        HELD.facts(FormTyped({"check": ROW.key}), Reading("kg", date(2026, 7, 24), page))
    assert refused.value.text == (
        "Nobody knows since when Scale, Drum scale is off: keep the check again, with the time it "
        "may have been off since, or hold what it is about by its codes."
    )
