"""Moisture from a refractometer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.refraction import (
    TABLE,
    Scale,
    Shown,
    at_20,
    by_formula,
    index_of,
    moisture_of,
)
from honeyledger.domain.refusals import Refusal

# The whole table as printed, water in tenths of a percent and index in ten-thousandths. Source:
# Chataway 1932 and Wedmore 1955 as in Bogdanov, Book of Honey, chapter 4. Seen, S: three copies.
PRINTED = """
130 15044 132 15038 134 15033 136 15028 138 15023 140 15018 142 15012 144 15007 146 15002 148 14997
150 14992 152 14987 154 14982 156 14976 158 14971 160 14966 162 14961 164 14956 166 14951 168 14946
170 14940 172 14935 174 14930 176 14925 178 14920 180 14915 182 14910 184 14905 186 14900 188 14895
190 14890 192 14885 194 14880 196 14875 198 14870 200 14865 202 14860 204 14855 206 14850 208 14845
210 14840 212 14835 214 14830 216 14825 218 14820 220 14815 222 14810 224 14805 226 14800 228 14795
230 14790 232 14785 234 14780 236 14775 238 14770 240 14765 242 14760 244 14755 246 14750 248 14745
250 14740
"""
NUMBERS = [int(word) for word in PRINTED.split()]
ROWS = [
    (tenths * 10, index * 100) for tenths, index in zip(NUMBERS[::2], NUMBERS[1::2], strict=True)
]


def moisture(value: int, scale: Scale = Scale.INDEX, at: int | None = 200) -> int:
    return moisture_of(Shown(scale, value, at)).moisture


def test_every_row_of_the_table_is_met_both_ways() -> None:
    assert len(ROWS) == 61
    assert [(water, index) for index, water in reversed(TABLE)] == ROWS
    for water, index in ROWS:
        assert moisture(index) == water
        assert index_of(water) == index


def test_the_formula_agrees_with_every_row() -> None:
    # Wedmore's equation against the table: at most 0.0216 % of water, at 1.4740 and 1.4840.
    # Computed, C, from the two seen sources.
    off = {index: abs(by_formula(index) - water / 100) for water, index in ROWS}
    assert max(off.values()) <= 0.025
    assert max(off.values()) == pytest.approx(0.0216, abs=0.0001)
    # Points computed by hand from the printed equation.
    assert by_formula(1_490_000) == pytest.approx(18.593, abs=0.001)
    for index, water in ((1_504_400, 12.985), (1_496_600, 16.002), (1_474_000, 25.021)):
        assert by_formula(index) == pytest.approx(water, abs=0.001)


def test_a_reading_above_20_degrees_is_raised_and_one_below_is_lowered() -> None:
    # Published example at 123foodscience.com (S2, a secondary source only): 1.482 at 32 °C is
    # 1.48476; its 20.8 % takes the lower row of the table, the straight line says 20.70.
    found = moisture_of(Shown(Scale.INDEX, 1_482_000, 320))
    assert found.index == 1_484_760
    assert found.moisture == 2_070
    assert abs(found.moisture - 2_080) <= 15
    assert by_formula(found.index) == pytest.approx(20.675, abs=0.001)
    # Computed, C, from the formula: 1.4900 at 25 °C is 18.139 %, at 18 °C it is 18.775 %.
    assert at_20(1_490_000, 250) == 1_491_150
    assert by_formula(1_491_150) == pytest.approx(18.139, abs=0.005)
    assert moisture(1_490_000, at=250) == 1_814
    assert at_20(1_490_000, 180) == 1_489_540
    assert by_formula(1_489_540) == pytest.approx(18.775, abs=0.005)
    assert moisture(1_490_000, at=180) == 1_878


def test_an_instrument_that_corrects_by_itself_is_left_alone() -> None:
    for temperature in (None, 50, 320, 900):
        found = moisture_of(Shown(Scale.INDEX, 1_490_000, temperature, corrects_itself=True))
        assert (found.moisture, found.index) == (1_860, 1_490_000)


def test_brix_on_the_scale_of_honey_are_its_solids() -> None:
    # United States Standards for Grades of Extracted Honey: solids are 100 less moisture, 81.4 is
    # 18.6 %. Value from memory, M.
    assert moisture(8_140, Scale.HONEY) == 1_860
    # At 30 °C it would be the same index as for refractive index, raised by 0.0023.
    assert moisture(8_140, Scale.HONEY, 300) == moisture(1_490_000, at=300) < 1_860
    assert moisture(1_860, Scale.WATER, 300) == moisture(8_140, Scale.HONEY, 300)


def test_brix_on_the_scale_of_sucrose_go_by_its_index_and_say_that_they_are_unverified() -> None:
    # Sugar trade's table of 1974, from memory, M: 80 % sucrose has 1.49071. That 1.4900 is near
    # 79.6 to 79.8 Brix and 18.6 % of water is from memory, too.
    found = moisture_of(Shown(Scale.SUCROSE, 8_000, 200))
    assert found.index == 1_490_710
    assert not found.verified
    assert not moisture_of(Shown(Scale.HONEY, 8_000, 200)).verified
    assert moisture_of(Shown(Scale.WATER, 2_000, 200)).verified
    assert 1_860 <= moisture(7_972, Scale.SUCROSE) <= 1_862
    # 100 less Brix, as is often done, would be some 1.7 % off.
    assert (10_000 - 8_000) - moisture(8_000, Scale.SUCROSE) == pytest.approx(170, abs=15)


def test_without_a_temperature_nothing_is_corrected() -> None:
    with pytest.raises(Refusal) as refused:
        moisture(1_490_000, at=None)
    assert refused.value.field == "temperature"
    assert refused.value.text == (
        "Say how warm the honey was on the prism, or that the instrument corrects by itself."
    )


@pytest.mark.parametrize(("temperature", "said"), [(99, "9.9 °C"), (401, "40.1 °C")])
def test_far_from_20_degrees_nothing_is_corrected(temperature: int, said: str) -> None:
    assert at_20(1_490_000, 100) == 1_487_700
    assert at_20(1_490_000, 400) == 1_494_600
    with pytest.raises(Refusal) as refused:
        moisture(1_490_000, at=temperature)
    assert refused.value.text == (
        f"{said} is outside 10.0 °C to 40.0 °C, where a reading can be corrected: bring honey and "
        "prism near 20 °C and read again."
    )


@pytest.mark.parametrize(
    ("scale", "value", "shown", "bounds"),
    [
        (Scale.INDEX, 1_504_410, "1.50441", "1.4740 to 1.5044"),
        (Scale.INDEX, 1_473_900, "1.4739", "1.4740 to 1.5044"),
        (Scale.WATER, 1_299, "12.99 %", "13.0 % to 25.0 %"),
        (Scale.WATER, 2_501, "25.01 %", "13.0 % to 25.0 %"),
        (Scale.HONEY, 7_499, "25.01 %", "13.0 % to 25.0 %"),
        (Scale.SUCROSE, 6_990, "69.9 Brix", "70.0 Brix to 85.0 Brix"),
        (Scale.SUCROSE, 8_510, "85.1 Brix", "70.0 Brix to 85.0 Brix"),
    ],
)
def test_off_the_table_is_refused(scale: Scale, value: int, shown: str, bounds: str) -> None:
    with pytest.raises(Refusal) as refused:
        moisture(value, scale)
    assert refused.value.text == (
        f"{shown} is outside the table for honey, {bounds} at 20 °C: read again, or send a sample "
        "to a laboratory."
    )


@given(st.integers(1_474_000, 1_504_300), st.integers(1, 100))
def test_the_more_it_bends_light_the_less_water(index: int, more: int) -> None:
    assert moisture(index + more) <= moisture(index)


@given(st.integers(1_300, 2_500))
def test_a_moisture_comes_back_from_its_index(water: int) -> None:
    # An index in millionths is finer than a hundredth of a percent of water.
    assert moisture(index_of(water)) == water


@given(st.integers(1_480_000, 1_497_000), st.integers(100, 400))
def test_the_warmer_it_was_read_the_less_water(index: int, temperature: int) -> None:
    assert (moisture(index, at=temperature) <= moisture(index)) is (temperature >= 200) or (
        moisture(index, at=temperature) == moisture(index)
    )
