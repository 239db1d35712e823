"""Measures: nothing lost in reading, nothing guessed, parts that add up to the whole."""

from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.domain.units import (
    MOST_G,
    MassUnit,
    format_colour,
    format_mass,
    format_moisture,
    format_number,
    format_share,
    format_shares,
    format_temperature,
    largest_remainder,
    parse_colour,
    parse_coordinate,
    parse_count,
    parse_mass_g,
    parse_moisture,
    parse_percent,
    parse_temperature,
)

GAP = "\u202f"


def refused(read: Callable[[], object], field: str) -> str:
    with pytest.raises(Refusal) as refusal:
        read()
    assert refusal.value.field == field
    return refusal.value.text


# Sharing out.

WEIGHTS = st.lists(
    st.integers(0, 10**7) | st.fractions(0, 10**4, max_denominator=10**6), min_size=1, max_size=30
)


@given(st.integers(0, 10**12), WEIGHTS)
def test_parts_add_up_and_are_next_to_the_exact_shares(
    total: int, weights: list[int | Fraction]
) -> None:
    if not sum(weights):
        weights = [*weights, 1]
    parts = largest_remainder(total, weights)
    assert sum(parts) == total
    exact = [Fraction(total) * weight / sum(weights) for weight in weights]
    assert all(abs(part - share) < 1 for part, share in zip(parts, exact, strict=True))
    raised = [part > share for part, share in zip(parts, exact, strict=True)]
    remainders = [share - int(share) for share in exact]
    up = [r for r, is_up in zip(remainders, raised, strict=True) if is_up]
    down = [r for r, is_up in zip(remainders, raised, strict=True) if not is_up]
    assert not up or not down or min(up) >= max(down)


@given(st.integers(1, 10**9), WEIGHTS)
def test_a_part_with_no_weight_gets_nothing(total: int, weights: list[int | Fraction]) -> None:
    parts = largest_remainder(total, [0, *weights, 1, 0])
    assert (parts[0], parts[-1]) == (0, 0)


def test_the_first_of_equal_remainders_gets_what_is_left() -> None:
    assert largest_remainder(-10, [1, 1, 1]) == [-4, -3, -3]
    assert largest_remainder(10, [1, 1, 1]) == [4, 3, 3]
    assert largest_remainder(11, [1, 1, 1]) == [4, 4, 3]
    assert largest_remainder(100, [Fraction(1, 3), Fraction(2, 3), 0]) == [33, 67, 0]


def test_nothing_can_be_shared_out_by_nothing() -> None:
    assert largest_remainder(0, []) == []
    assert largest_remainder(0, [0, 0]) == [0, 0]


@pytest.mark.parametrize(("total", "weights"), [(1, []), (1, [0, 0]), (5, [3, -1])])
def test_weights_that_share_out_nothing_are_our_bug(total: int, weights: list[int]) -> None:
    with pytest.raises(BrokenRule, match="cannot be shared out"):
        largest_remainder(total, weights)


# Weights.


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("12.5", 12_500),
        ("12,5", 12_500),
        (" 12,5 kg ", 12_500),
        ("12.5KG", 12_500),
        ("+12.5", 12_500),
        ("500 g", 500),
        ("0", 0),
        (".5", 500),
        ("5.", 5_000),
        ("007", 7_000),
        ("0.234", 234),
        ("0,234", 234),
        ("012.345", 12_345),
        ("1.2340", 1_234),
        ("1,2340", 1_234),
        ("1234.", 1_234_000),
        ("1234.567", 1_234_567),
        ("12.34", 12_340),
        ("1 234", 1_234_000),
        ("1\u202f234,5", 1_234_500),
        ("1\u00a0234.567", 1_234_567),
        ("1'234.5", 1_234_500),
        ("1.234,5", 1_234_500),
        ("1,234.567", 1_234_567),
        ("1.234.567", 1_234_567_000),
        ("1,234,567.8", 1_234_567_800),
        # Finer than a gram: to the nearest, halves up.
        ("0.0004", 0),
        ("0.0005", 1),
        ("12.3456", 12_346),
    ],
)
def test_kilograms_are_read_to_the_gram(text: str, grams: int) -> None:
    assert parse_mass_g(text) == grams


@pytest.mark.parametrize(
    ("text", "unit", "grams"),
    [
        # Source: the international pound is 453.59237 g exactly.
        ("1", "lb", 454),
        ("100000", "lb", 45_359_237),
        ("646", "lb", 293_021),
        ("27 lbs", "kg", 12_247),
        ("12.5 kg", "lb", 12_500),
        ("340", "g", 340),
    ],
)
def test_pounds_are_exact(text: str, unit: MassUnit, grams: int) -> None:
    assert parse_mass_g(text, unit) == grams


@given(st.integers(0, MOST_G))
def test_grams_typed_as_kilograms_come_back(grams: int) -> None:
    assert parse_mass_g(f"{grams // 1000}.{grams % 1000:03}0") == grams
    assert parse_mass_g(f"{grams // 1000},{grams % 1000:03}0 kg") == grams
    assert parse_mass_g(format_mass(grams, "kg", 4)) == grams


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(".,"))
@example(1, 0, ".")
def test_what_can_mean_two_weights_is_asked_about(whole: int, part: int, sign: str) -> None:
    text = f"{whole}{sign}{part:03}"
    assert refused(lambda: parse_mass_g(text), "mass") == (
        f"{text} can mean {whole} kg {part} g or {whole}{part:03} kg: "
        f"type {text}0 or {whole}{part:03}."
    )
    assert parse_mass_g(f"{text}0") == whole * 1000 + part
    assert parse_mass_g(f"{whole}{part:03}.") == (whole * 1000 + part) * 1000


def test_the_question_names_the_unit_in_use() -> None:
    assert refused(lambda: parse_mass_g("1.234"), "mass") == (
        "1.234 can mean 1 kg 234 g or 1234 kg: type 1.2340 or 1234."
    )
    assert refused(lambda: parse_mass_g("+1.234"), "mass").startswith("+1.234 can mean 1 kg 234 g")
    assert refused(lambda: parse_mass_g("1,234", "lb", field="gross"), "gross") == (
        "1,234 can mean 1,2340 lb or 1234 lb: type 1,2340 or 1234."
    )
    assert refused(lambda: parse_mass_g("1.234 g"), "mass") == (
        "1.234 g can mean 1.2340 g or 1234 g: type 1.2340 or 1234."
    )


@pytest.mark.parametrize(
    "text",
    ["abc", ".", "1.2.3", "1.234.5", "12 34", "0 234", "1e5", "12..5", "kg", "--5", "1/2", "٣"],
)
def test_what_is_no_weight_is_refused(text: str) -> None:
    assert refused(lambda: parse_mass_g(text), "mass") == (
        f"{text} is not a weight: type it in digits, such as 12.5 kg."
    )


def test_a_burst_of_digits_is_refused_and_shortened() -> None:
    assert refused(lambda: parse_mass_g("9" * 5000), "mass") == (
        f"{'9' * 37}... is not a weight: type it in digits, such as 12.5 kg."
    )


def test_an_empty_weight_is_refused() -> None:
    assert refused(lambda: parse_mass_g(" ", "lb"), "mass") == (
        "Nothing is typed here: type a weight, such as 12.5 lb."
    )


@pytest.mark.parametrize("text", ["-5", "\u22120.001", "-1.234 kg"])
def test_a_weight_below_zero_is_refused(text: str) -> None:
    assert refused(lambda: parse_mass_g(text), "mass") == (
        f"{text} is below zero: type a weight without a sign."
    )


def test_more_than_any_house_holds_is_refused() -> None:
    assert parse_mass_g("1 000 000 000") == MOST_G
    assert refused(lambda: parse_mass_g("1000000001"), "mass") == (
        f"1000000001 cannot be a weight: type a figure from 0 to 1{GAP}000{GAP}000{GAP}000 kg."
    )


# Counts.


@pytest.mark.parametrize(("text", "count"), [("24", 24), (" 0 ", 0), ("5 200", 5200), ("007", 7)])
def test_counts_are_read(text: str, count: int) -> None:
    assert parse_count(text) == count


@pytest.mark.parametrize(
    "text", ["12.5", "12,5", "1.234", "1,234", "-3", "x", "12 34", "9" * 5000]
)
def test_what_is_no_whole_number_is_refused(text: str) -> None:
    shown = text if len(text) < 40 else f"{'9' * 37}..."
    assert refused(lambda: parse_count(text, "the jars", field="jars"), "jars") == (
        f"{shown} is not a whole number: type the jars, such as 24."
    )


def test_an_empty_count_is_refused() -> None:
    assert refused(lambda: parse_count(""), "count") == (
        "Nothing is typed here: type a count, such as 24."
    )


def test_a_count_below_the_least_is_refused() -> None:
    assert refused(lambda: parse_count("0", "the supers", least=1), "count") == (
        f"0 cannot be the supers: type a figure from 1 to 1{GAP}000{GAP}000{GAP}000."
    )


# Readings.


@pytest.mark.parametrize(
    ("text", "hundredths"),
    [
        ("17.8 %", 1780),
        ("17,85", 1785),
        ("18.6%", 1860),
        ("17.855", 1786),
        ("0", 0),
        ("100", 10000),
    ],
)
def test_moisture_is_read(text: str, hundredths: int) -> None:
    assert parse_moisture(text) == hundredths


@pytest.mark.parametrize("text", ["101 %", "-1", "178"])
def test_a_moisture_beyond_100_is_refused(text: str) -> None:
    if text.startswith("-"):
        expected = "-1 is below zero: type a moisture without a sign."
    else:
        expected = f"{text} cannot be a moisture: type a figure from 0 to 100 %."
    assert refused(lambda: parse_moisture(text), "moisture") == expected


def test_what_is_no_percentage_is_refused() -> None:
    assert refused(lambda: parse_percent("most", "the capped part"), "percent") == (
        "most is not the capped part: type it in digits, such as 17.8 %."
    )
    assert refused(lambda: parse_moisture(""), "moisture") == (
        "Nothing is typed here: type a moisture, such as 17.8 %."
    )


@pytest.mark.parametrize(
    ("text", "tenths"),
    [("34", 340), ("8,1 mm", 81), ("114.1 mm Pfund", 1141), ("34 Pfund", 340), ("150", 1500)],
)
def test_colour_is_read(text: str, tenths: int) -> None:
    assert parse_colour(text) == tenths


def test_what_is_no_colour_is_refused() -> None:
    assert refused(lambda: parse_colour("340"), "colour") == (
        "340 cannot be a Pfund reading: type a figure from 0 to 300 mm."
    )
    assert refused(lambda: parse_colour("amber"), "colour") == (
        "amber is not a Pfund reading: type it in digits, such as 34 mm."
    )


@pytest.mark.parametrize(
    ("text", "tenths"),
    [
        ("35", 350),
        ("-5,5 °C", -55),
        ("\u22125", -50),
        ("95 °F", 350),
        ("95F", 350),
        ("32 °F", 0),
        ("100 °F", 378),
        ("31.9 °F", -1),
    ],
)
def test_temperature_is_read(text: str, tenths: int) -> None:
    assert parse_temperature(text) == tenths
    assert parse_temperature("95", "F") == parse_temperature("35 °C", "F") == 350


def test_what_is_no_temperature_is_refused() -> None:
    assert refused(lambda: parse_temperature("200"), "temperature") == (
        "200 cannot be a temperature: type a figure from -50 to 150 °C."
    )
    assert refused(lambda: parse_temperature("303", "F"), "temperature") == (
        "303 cannot be a temperature: type a figure from -58 to 302 °F."
    )
    assert refused(lambda: parse_temperature("warm", "F"), "temperature") == (
        "warm is not a temperature: type it in digits, such as 35 °F."
    )


def test_coordinates_are_read() -> None:
    assert parse_coordinate("52.5163", "latitude") == 525_163_000
    assert parse_coordinate("-33.86882° ", "latitude") == -338_688_200
    assert parse_coordinate("33.86882 S", "latitude") == -338_688_200
    assert parse_coordinate("104,6189 W", "longitude") == -1_046_189_000
    assert parse_coordinate("13.37770 °E", "longitude") == 133_777_000


def test_what_is_no_coordinate_is_refused() -> None:
    assert refused(lambda: parse_coordinate("95", "latitude"), "latitude") == (
        "95 cannot be a latitude: type a figure from -90 to 90."
    )
    assert refused(lambda: parse_coordinate("north", "longitude"), "longitude") == (
        "north is not a longitude: type it in digits, such as 52.5163."
    )


@given(st.text() | st.text("0123456789.,' -", max_size=12))
def test_no_text_is_too_odd_to_be_refused(text: str) -> None:
    for read in (parse_mass_g, parse_count, parse_moisture, parse_colour, parse_temperature):
        with suppress(Refusal):
            assert isinstance(read(text), int)


# Writing.


def test_numbers_are_written_for_columns() -> None:
    assert format_number(1_234_567) == f"1{GAP}234{GAP}567"
    assert format_number(Fraction(1, 8), 2) == "0.13"
    assert format_number(-1234) == f"\u22121{GAP}234"
    assert format_number(Fraction(-1, 100), 1) == "0.0"


def test_masses_are_written_in_the_houses_unit() -> None:
    assert format_mass(12_500) == "12.5 kg"
    assert format_mass(1_234_567) == f"1{GAP}234.6 kg"
    assert format_mass(1_234_567, decimals=3) == f"1{GAP}234.567 kg"
    assert format_mass(-50) == "\u22120.1 kg"
    assert format_mass(-49) == "0.0 kg"
    assert format_mass(45_359_237, "lb") == f"100{GAP}000.0 lb"
    assert format_mass(500, "g") == "500 g"


def test_readings_are_written() -> None:
    assert format_moisture(1785) == "17.9 %"
    assert format_moisture(1785, 2) == "17.85 %"
    assert (format_colour(340), format_colour(81)) == ("34 mm", "8.1 mm")
    assert format_temperature(355) == "35.5 °C"
    assert format_temperature(350, "F") == "95.0 °F"
    assert format_temperature(-55) == "\u22125.5 °C"


def test_a_share_that_is_in_is_never_shown_as_nothing() -> None:
    assert format_share(Fraction(2, 3)) == "66.7 %"
    assert format_share(0.0) == "0.0 %"
    assert format_share(1e-9) == "under 0.1 %"
    assert format_share(Fraction(1, 15), 4) == "6.6667 %"


def test_shares_shown_add_up_to_100() -> None:
    assert format_shares([1 / 3, 1 / 3, 1 / 3]) == ["33.4 %", "33.3 %", "33.3 %"]
    assert format_shares([0.0, 1.0, 1e-12]) == ["0.0 %", "100.0 %", "under 0.1 %"]
    assert format_shares([]) == []


@given(st.lists(st.floats(0, 1, allow_subnormal=False), min_size=1, max_size=40).filter(any))
def test_shares_shown_add_up_whatever_they_are(shares: list[float]) -> None:
    shown = [text.removesuffix(" %") for text in format_shares(shares)]
    assert sum(Fraction(text) for text in shown if not text.startswith("under")) == 100
