"""The form of readings: what it asks by what is measured, and the facts it says."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading, field_of
from honeyledger.desktop.models.reading_asks import calibration_form, reading_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Refraction, Reported
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse

READING = Reading("kg", date(2026, 7, 24))
SPEC = reading_form("Drum: scan it", "drums")
LOT = "D26-0001-C"


def shown(**values: str) -> list[str]:
    typed = FormTyped({**SPEC.begins().values, **values})
    return [ask.key for ask in SPEC.asks() if ask.shown is None or ask.shown(typed, READING)]


@pytest.mark.parametrize(
    ("values", "asked"),
    [
        ({}, ["scale", "value", "instrument"]),
        ({"scale": "index"}, ["scale", "value", "at", "corrects", "instrument"]),
        ({"scale": "index", "corrects": "itself"}, ["scale", "value", "corrects", "instrument"]),
        ({"kind": "colour"}, ["colour_as", "value", "instrument"]),
        ({"kind": "conductivity"}, ["value", "at", "instrument"]),
        ({"kind": "laboratory"}, ["result_of", "value", "laboratory", "report", "sampled"]),
    ],
)
def test_what_is_asked_follows_from_what_is_measured(
    values: dict[str, str], asked: list[str]
) -> None:
    assert shown(**values) == ["lot", "kind", *asked]


@pytest.mark.parametrize(
    ("values", "facts"),
    [
        (
            {"value": "17,4", "instrument": "R 2"},
            Measure(LOT, moisture=17_40, instrument="R 2"),
        ),
        (
            {"scale": "index", "value": "1.4900", "at": "25"},
            Measure(LOT, shown=Refraction("index", 1_490_000, 250)),
        ),
        (
            {"scale": "honey", "value": "81.4", "corrects": "itself", "at": "30"},
            Measure(LOT, shown=Refraction("honey", 81_40, None, corrects_itself=True)),
        ),
        (
            {"scale": "sucrose scale", "value": "79.7", "at": "20"},
            Measure(LOT, shown=Refraction("sucrose", 79_70, 200)),
        ),
        ({"kind": "colour", "value": "34"}, Measure(LOT, colour=340)),
        (
            {"kind": "colour", "colour_as": "optical density", "value": "0.595"},
            Measure(LOT, results=(Reported("optical density", "0.595"),)),
        ),
        (
            {"kind": "conductivity", "value": "0.64", "at": "22.5"},
            Measure(LOT, results=(Reported("conductivity", "0.64", 225),)),
        ),
        (
            {
                "kind": "laboratory",
                "result_of": "hmf",
                "value": "<5",
                "laboratory": "Bench",
                "report": "26-118",
                "sampled": "20 Jul 2026",
            },
            Measure(
                LOT,
                results=(Reported("hmf", "<5"),),
                laboratory="Bench",
                report="26-118",
                sampled="2026-07-20",
            ),
        ),
    ],
)
def test_the_facts_it_says(values: dict[str, str], facts: Any) -> None:
    typed = FormTyped({**SPEC.begins().values, "lot": LOT, **values})
    assert list(SPEC.facts(typed, READING)) == [facts]


def test_a_refusal_is_shown_at_what_was_typed() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    pull, _ = house.pull("Creek", 100_000)
    values = {"lot": pull, "scale": "index", "value": "1.52", "at": "20"}
    typed = FormTyped({**SPEC.begins().values, **values})
    with pytest.raises(Refusal) as caught:
        house.do(SPEC.facts(typed, READING)[0])
    assert caught.value.key == "off-the-refraction-table"
    assert field_of(SPEC, caught.value)[0] == "value"
    typed = typed.with_value("at", "")
    with pytest.raises(Refusal) as caught:
        house.do(SPEC.facts(typed, READING)[0])
    assert field_of(SPEC, caught.value)[0] == "at"


def test_what_was_read_is_said_with_how_many_lots_it_counts_for() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 300_000, "Tank 1")
    one, other = house.drum("Tank 1", 140_000), house.drum("Tank 1", 140_000)
    sample = house.do(Sample((one, other), 200)).codes[-1]
    for code, words in (
        (one, f"{one} is read."),
        (sample, f"{sample} is read: it counts for 2 lots."),
    ):
        typed = FormTyped({**SPEC.begins().values, "lot": code, "value": "17.4"})
        done = house.do(SPEC.facts(typed, READING)[0])
        assert SPEC.done(typed, done, READING).startswith(words)


@pytest.mark.parametrize(
    ("values", "facts"),
    [
        (
            {"known": "18,0", "read": "17.6", "against": "oil"},
            Calibrate("R 2", 18_00, 17_60, "moisture", "oil"),
        ),
        ({"of": "colour", "known": "34", "read": "35"}, Calibrate("R 2", 340, 350, "colour")),
        (
            {"of": "temperature", "known": "20", "read": "20.5"},
            Calibrate("R 2", 200, 205, "temperature"),
        ),
        (
            {"of": "conductivity", "known": "0.84", "read": "0.86"},
            Calibrate("R 2", 840, 860, "conductivity"),
        ),
    ],
)
def test_an_instrument_is_calibrated(values: dict[str, str], facts: Calibrate) -> None:
    spec = calibration_form()
    typed = FormTyped({**spec.begins().values, "instrument": "R 2", **values})
    assert list(spec.facts(typed, READING)) == [facts]
    house = BuiltHouse()
    house.do(Register("equipment", {"name": "R 2"}))
    assert spec.done(typed, house.do(facts), READING) == "R 2 is calibrated."
