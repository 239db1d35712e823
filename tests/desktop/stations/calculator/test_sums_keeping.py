"""The sums about keeping: heat, drying, and the beetle's clock."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import Sum
from honeyledger.desktop.stations.calculator.sums_keeping import keeping_sums
from honeyledger.domain.refusals import Refusal

HEAT, DRY, BEETLES = keeping_sums()
READING = Reading("kg", date(2026, 7, 24))


def _found(**typed: str) -> dict[str, str]:
    return _of(HEAT, **typed)


def _of(one: Sum, **typed: str) -> dict[str, str]:
    form = FormTyped(typed)
    assert one.needs(form)
    answer = one.reckon(form, READING)
    assert all(figure.source for figure in answer.figures)
    return {figure.meaning: figure.figure for figure in answer.figures}


def test_two_days_at_50_degrees_are_a_band() -> None:
    """Source: 4 to 10 days to 30 mg/kg at 50 °C (S2, White 1964 and others)."""
    assert _found(temperature="50", hours="48") == {"HMF grown by, mg/kg": "6.0 to 15.0"}
    found = _found(temperature="50", hours="48", hmf="5", diastase="16")
    assert found["HMF then, mg/kg"] == "11.0 to 20.0"
    # Half in 5.38 days, White 1964: value from memory (M); a degree off each way.
    least, most = map(float, found["diastase left"].split(" to "))
    assert 11 < least < 12.4 < most < 13
    answer = HEAT.reckon(FormTyped({"temperature": "50", "hours": "48"}), READING)
    assert all(one.doubtful for one in answer.figures)
    assert answer.care == "A band for choosing what to have measured; it certifies nothing."


def test_outside_the_tables_nothing_is_told() -> None:
    assert not HEAT.needs(FormTyped({"temperature": "50"}))
    with pytest.raises(Refusal) as refused:
        _found(temperature="80.1", hours="1")
    assert refused.value.field == "temperature"
    assert "hotter than the published tables go" in refused.value.text
    with pytest.raises(Refusal) as refused:
        _found(temperature="50", hours="0")
    assert refused.value.field == "hours"


FALLING = {
    "hour1": "0",
    "water1": "19.6",
    "hour2": "6",
    "water2": "19.4",
    "hour3": "12",
    "water3": "19.2",
    "hour4": "18",
    "water4": "19.0",
    "hour5": "24",
    "water5": "18.8",
}


def test_hours_to_dry_are_a_band_that_the_air_may_forbid() -> None:
    assert _of(DRY, target="18.0", **FALLING) == {
        "hours after the last reading, likely": "24",
        "hours after the last reading": "17 to 36",
        "water lost in a day": "0.80 %",
    }
    # Martin 1939 after White (S2): air of 58 % is in balance with 17.4 %.
    aired = _of(DRY, target="18.0", humidity="58", **FALLING)
    assert aired["water it comes to in this air"] == "17.4 %"
    there = _of(DRY, target="19", **FALLING)
    assert there["hours after the last reading"] == "it is there already"


@pytest.mark.parametrize(
    ("typed", "said", "field"),
    [
        ({"target": "18", "humidity": "62"}, "no lower than 19.5 %", "target"),
        ({"target": "18", "humidity": "90"}, "is outside the table", "humidity"),
        ({"target": "16", "humidity": "45"}, "is outside the table", "humidity"),
        ({"target": "14"}, "times as far ahead", "target"),
        ({"target": "18", "water5": ""}, "moisture", "water5"),
        ({"target": "18", "hour2": "0", "hour4": "", "hour5": ""}, "at three times", "hour1"),
    ],
)
def test_drying_that_cannot_be_told_is_refused(
    typed: dict[str, str], said: str, field: str
) -> None:
    with pytest.raises(Refusal, match=said) as refused:
        _of(DRY, **{**FALLING, **typed})
    assert DRY.field_of(refused.value.field) == field


def test_a_reading_is_asked_for_when_the_one_before_is_there() -> None:
    asks = {ask.key: ask for ask in DRY.asks()}
    for key, typed, asked in (("hour3", {}, True), ("hour4", {}, False), ("hour4", FALLING, True)):
        shown = asks[key].shown
        assert shown is not None
        assert shown(FormTyped(typed), READING) is asked


# Source: abstract 112437 of the Agricultural Research Service of the USDA (S): 5 days, and 50 %.
@pytest.mark.parametrize(
    ("typed", "left", "state"),
    [
        ({"hours": "72"}, "48 h", "in time"),
        ({"hours": "73", "dampest": "55"}, "47 h", "hurry"),
        ({"hours": "80", "driest": "45", "dampest": "49"}, "40 h", "held back by dry air"),
        ({"hours": "80", "driest": "45", "dampest": "50"}, "40 h", "hurry"),
        ({"hours": "121"}, "0 h", "late"),
    ],
)
def test_the_clock_of_waiting_supers(typed: dict[str, str], left: str, state: str) -> None:
    assert _of(BEETLES, **typed) == {
        "until damage by larvae is likely": left,
        "how the supers stand": state,
    }


def test_the_beetle_clock_takes_whole_hours_and_a_humidity_up_to_100() -> None:
    for typed, field in (({"hours": "1.5"}, "hours"), ({"hours": "9", "driest": "101"}, "driest")):
        with pytest.raises(Refusal) as refused:
            _of(BEETLES, **typed)
        assert refused.value.field == field
