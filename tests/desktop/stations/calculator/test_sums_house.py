"""The sums about work in the house: a dip, jars, units, days."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums_house import house_sums
from honeyledger.domain.refusals import Refusal

SUMS = {one.key: one for one in house_sums()}
READING = Reading("kg", date(2026, 7, 24))


def _found(key: str, **typed: str) -> dict[str, str]:
    one = SUMS[key]
    form = FormTyped({**one.begins().values, **typed})
    assert one.needs(form)
    return {figure.meaning: figure.figure for figure in one.reckon(form, READING).figures}


def test_a_dip_to_a_weight() -> None:
    """A cylinder by geometry; density at 17 %, 1.4237 of water's: value from memory."""
    found = _found("dip", width="1000", dip="1000", moisture="17")
    assert found["in the tank"] == "785.4 l"
    assert found["density"] == "1\u202f421 g/l"
    assert found["about"] == "1\u202f116.2 kg"
    with pytest.raises(Refusal, match="outside the table of densities"):
        _found("dip", width="1000", dip="1000", moisture="30")
    with pytest.raises(Refusal) as refused:
        _found("dip", width="0", dip="10", moisture="17")
    assert SUMS["dip"].field_of(refused.value.field) == "width"


def test_jars_from_a_weight() -> None:
    found = _found("jars", mass="300", net="500", over="2.4", lost="2")
    assert found == {"jars": "593", "left over": "76 g"}
    assert _found("jars", mass="300", net="500")["jars"] == "600"


# Exact by definition: the international pound of 1959, the gallon of 231 cubic inches.
def test_units_are_exact() -> None:
    found = _found("units", mass="1 lb", degrees="95 F", gallons="60", litres="100")
    assert found["in kilograms"] == "0.454 kg"
    assert found["in ounces"] == "16.01 oz"  # of 454 g, as the ledger keeps whole grams
    assert (found["in Celsius"], found["in Fahrenheit"]) == ("35.0 °C", "95.0 °F")
    assert found["of those gallons"] == "227.12 l"
    assert found["of those litres"] == "26.42 gallons"
    assert not SUMS["units"].needs(FormTyped({}))


def test_days_by_a_label_s_interval() -> None:
    meaning = "the first day supers may go on, or honey be pulled"
    assert _found("days", day="10 Apr 2026", interval="14 days")[meaning] == "24 Apr 2026"
    last = _found("days", **{"from": "on", "day": "24 Apr 2026", "interval": "14 days"})
    assert last == {"the last day it may come out": "10 Apr 2026"}
    reckoned = SUMS["days"].reckon(
        FormTyped({"from": "out", "day": "10 Apr", "interval": "2 months"}), READING
    )
    assert reckoned.care == "Follow the label where you are, and your local code."
    with pytest.raises(Refusal, match="no interval of a label"):
        _found("days", day="10 Apr 2026", interval="14")
