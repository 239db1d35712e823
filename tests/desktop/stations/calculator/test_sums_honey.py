"""The sums about honey: each figure as its source has it, each refusal in words."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import Reckoned
from honeyledger.desktop.stations.calculator.sums_honey import honey_sums
from honeyledger.domain.refusals import Refusal

SUMS = {one.key: one for one in honey_sums()}
READING = Reading("kg", date(2026, 7, 24))


def _found(key: str, **typed: str) -> dict[str, str]:
    one = SUMS[key]
    form = FormTyped({**one.begins().values, **typed})
    assert one.needs(form)
    answer = one.reckon(form, READING)
    assert all(figure.source for figure in answer.figures)
    return {figure.meaning: figure.figure for figure in answer.figures}


def _sources(key: str, **typed: str) -> Reckoned:
    one = SUMS[key]
    return one.reckon(FormTyped({**one.begins().values, **typed}), READING)


# Source: Chataway 1932 with Wedmore 1955, as in Bogdanov, Book of Honey, chapter 4; 0.00023 a
# degree above 20 °C.
@pytest.mark.parametrize(
    ("typed", "water"),
    [
        ({"figure": "1.4900", "temperature": "20"}, "18.60 %"),
        ({"figure": "1.5044", "temperature": "20"}, "13.00 %"),
        ({"figure": "1.4740", "temperature": "20"}, "25.00 %"),
        ({"scale": "water", "figure": "18.6", "corrected": "yes"}, "18.60 %"),
        ({"scale": "honey", "figure": "81.4", "corrected": "yes"}, "18.60 %"),
    ],
)
def test_moisture_by_its_table(typed: dict[str, str], water: str) -> None:
    assert _found("moisture", **typed)["water"] == water


def test_a_warm_prism_is_corrected_and_a_value_from_memory_is_called_so() -> None:
    assert _found("moisture", figure="1.4890", temperature="25")["water"] == "18.54 %"
    assert not _sources("moisture", figure="1.49", temperature="20").figures[0].doubtful
    brix = _sources("moisture", scale="honey", figure="81.4", corrected="yes").figures[0]
    assert brix.doubtful
    assert brix.source.endswith("value from memory: not to be relied on")
    assert not SUMS["moisture"].needs(FormTyped({"figure": "1.49"}))


# Source: United States Standards for Grades of Extracted Honey, table I, as quoted (second hand).
@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"reading": "8"}, "Water White"),
        ({"reading": "8.1"}, "Extra White"),
        ({"reading": "114"}, "Amber"),
        ({"reading": "114.1"}, "Dark Amber"),
        ({"reading": "0.0945", "as": "density"}, "Water White"),
        ({"reading": "25.4", "as": "light"}, "Light Amber"),
    ],
)
def test_colour_by_its_classes(typed: dict[str, str], name: str) -> None:
    assert _found("colour", **typed)["class"] == name


def test_light_is_told_as_a_density_too() -> None:
    assert _found("colour", reading="10", **{"as": "light"})["optical density"] == "1.000"
    with pytest.raises(Refusal, match="A transmittance is above 0"):
        _found("colour", reading="0", **{"as": "light"})


def test_a_blend_by_weight_and_its_colour_as_a_range() -> None:
    found = _found(
        "blend", net1="300", water1="17.2", colour1="12", net2="100", water2="19.2", colour2="64"
    )
    assert found["of honey"] == "400.0 kg"
    assert found["water"] == "17.70 %"
    assert found["colour"] == "12 mm to 64 mm"
    unread = _found("blend", net1="300", water1="17.2", net2="100", water2="19.2")
    assert "colour" not in unread
    asks = {ask.key: ask for ask in SUMS["blend"].asks()}
    third = asks["net3"].shown
    assert third is not None
    assert not third(FormTyped({"net1": "3"}), READING)
    assert third(FormTyped({"net2": "3"}), READING)


# Source: clover honey in balance, Martin 1939 after White, as reprinted: 17.4 % at 58 %.
def test_air_in_balance_with_honey() -> None:
    found = _found("air", moisture="17.4", humidity="45")
    assert found["what this air does"] == "dries it"
    assert found["humidity in balance with this honey"] == "58.0 %"
    assert _found("air", moisture="17.4", humidity="58")["what this air does"] == (
        "leaves it as it is"
    )
    back = _found("air", moisture="19.0", humidity="58")
    assert back["water it comes to in this air"] == "17.4 %"


def test_air_and_honey_outside_the_table_are_refused() -> None:
    with pytest.raises(Refusal) as refused:
        _found("air", moisture="12.0", humidity="20")
    assert refused.value.text == (
        "Honey of 12.0 % in air of 20.0 % is outside the table, 16.1 % to 33.9 % water and 52.0 % "
        "to 81.0 % humidity: read both again."
    )
    # What follows from the table's end is told: honey so dry takes up water from such air.
    assert _found("air", moisture="15", humidity="60")["what this air does"] == "wets it"
