"""The sum about what heat may have done."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums_keeping import keeping_sums
from honeyledger.domain.refusals import Refusal

(HEAT,) = keeping_sums()
READING = Reading("kg", date(2026, 7, 24))


def _found(**typed: str) -> dict[str, str]:
    form = FormTyped(typed)
    assert HEAT.needs(form)
    return {one.meaning: one.figure for one in HEAT.reckon(form, READING).figures}


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
