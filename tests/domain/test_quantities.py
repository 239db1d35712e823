"""Quantities: names, units, and results as they were reported."""

from decimal import Decimal

import pytest

from honeyledger.domain.quantities import QUANTITIES, quantity, reported
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.results import Kind


def said(name: str, text: str) -> str:
    return quantity(name).words(reported(quantity(name), text))


@pytest.mark.parametrize(
    ("name", "text", "shown"),
    [
        ("hmf", "12,4", "12.4 mg/kg"),
        ("hmf", "<5 mg/kg", "<5 mg/kg"),
        ("hmf", "n.d. (<1)", "not detected (<1 mg/kg)"),
        ("insolubles", "not detected", "not detected"),
        ("conductivity", "0.642 mS/cm", "0.642 mS/cm"),
        ("yeast", "12 000", "12000 /g"),
        ("yeast", "< 10", "<10 /g"),
        (" Fructose  and glucose", "68.1", "68.1 g/100 g"),
        ("optical density", "0.595", "0.595"),
    ],
)
def test_a_result_is_kept_and_told_as_it_was_reported(name: str, text: str, shown: str) -> None:
    assert said(name, text) == shown


def test_only_a_figure_has_parts() -> None:
    hmf = quantity("hmf")
    assert hmf.parts(reported(hmf, "12.4")) == 124
    assert hmf.parts(reported(hmf, "<5")) is None
    assert hmf.parts(reported(hmf, "not detected")) is None
    assert hmf.result(124).figure == Decimal("12.4")
    assert hmf.result(124).kind is Kind.FIGURE


@pytest.mark.parametrize(
    ("name", "parts", "shown"),
    [
        ("moisture", 1_800, "18.0 %"),
        ("moisture", 1_814, "18.14 %"),
        ("colour", 341, "34.1 mm"),
        ("temperature", -20, "-2 °C"),
        ("yeast", 120, "120 /g"),
        ("conductivity", 640, "0.64 mS/cm"),
    ],
)
def test_a_figure_is_said_in_the_places_it_needs(name: str, parts: int, shown: str) -> None:
    assert quantity(name).said(parts) == shown


def test_what_cannot_be_right_is_refused() -> None:
    with pytest.raises(Refusal) as caught:
        reported(quantity("diastase"), "240")
    assert caught.value.text == (
        "240 DN cannot be right for diastase: it lies between 0.0 and 100.0 DN. Look at the "
        "report again."
    )
    with pytest.raises(Refusal) as caught:
        reported(quantity("yeast"), "1.000", field="yeast")
    assert caught.value.key == "not-whole"
    assert caught.value.field == "yeast"


def test_a_name_that_is_no_quantity_is_refused_with_those_there_are() -> None:
    with pytest.raises(Refusal) as caught:
        quantity("sweetness")
    assert caught.value.text == (
        "sweetness is nothing that is measured of honey: choose of moisture, colour, "
        "temperature, optical density, conductivity, hmf, diastase, free acid, fructose and "
        "glucose, sucrose, insolubles, yeast."
    )


def test_what_is_possible_lies_within_what_is_typed_and_kept() -> None:
    assert all(one.lowest < one.highest for one in QUANTITIES.values())
    assert all(name == one.name for name, one in QUANTITIES.items())
