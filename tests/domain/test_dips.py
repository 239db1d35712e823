"""Tank dips: volume and weight."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.dips import (
    density,
    dipped_ml,
    gravity_by_bottle,
    upright_ml,
    volume_ml,
    weight_g,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import GRAMS_A_POUND

GALLON_ML = 3_785.411784  # NIST Handbook 44, appendix C: exact


# Specific gravity 20/20 by moisture (Wedmore, White): from memory, M; times 0.998203, C.
# 17 % at 1.423 and 18 % at 1.417 are in secondary sources (21food, beeclubpellas), and all lie in
# the seen range of 11.634 to 12.057 lb a US gallon (abstract of "Density of honey").
@pytest.mark.parametrize(
    ("moisture", "grams_a_litre", "pounds_a_gallon", "drum_kg"),
    [
        (1_300, 1_443, 12.043, 300.5),
        (1_400, 1_438, 11.999, 299.3),
        (1_500, 1_432, 11.954, 298.2),
        (1_600, 1_427, 11.908, 297.1),
        (1_700, 1_421, 11.860, 295.9),
        (1_800, 1_415, 11.805, 294.5),
        (1_860, 1_410, 11.770, 293.6),
        (1_900, 1_408, 11.747, 293.1),
        (2_000, 1_400, 11.685, 291.5),
        (2_100, 1_392, 11.621, 289.9),
    ],
)
def test_the_table_of_densities(
    moisture: int, grams_a_litre: int, pounds_a_gallon: float, drum_kg: float
) -> None:
    assert density(moisture) == grams_a_litre
    # A thousand gallons, so that whole grams do not matter.
    pounds = weight_g(round(1_000 * GALLON_ML), moisture) / float(GRAMS_A_POUND) / 1_000
    assert pounds == pytest.approx(pounds_a_gallon, abs=0.001)
    assert 11.6 < pounds < 12.06
    # A drum of 55 US gallons, brim full, computed.
    assert weight_g(round(55 * GALLON_ML), moisture) / 1_000 == pytest.approx(drum_kg, abs=0.06)


def test_warm_honey_is_lighter() -> None:
    # 0.6 g a litre and degree: value from memory.
    assert weight_g(1_000_000, 1_800, 350) == weight_g(1_000_000, 1_800) - 9_000
    assert density(1_800, 100) == density(1_800) + 6


def test_an_upright_tank_is_a_cylinder_and_one_with_a_table_goes_by_it() -> None:
    assert upright_ml(1_000, 1_000) == pytest.approx(pi / 4 * 1_000_000, abs=1)
    assert upright_ml(1_200, 0) == 0
    dips = ((0, 0), (100, 90_000), (500, 490_000))  # a cone below, invented
    assert [dipped_ml(dips, one) for one in (0, 50, 100, 300, 500)] == [
        *(0, 45_000, 90_000, 290_000, 490_000)
    ]


@pytest.mark.parametrize("dip", [-1, 501])
def test_off_the_tanks_own_table_is_refused(dip: int) -> None:
    with pytest.raises(Refusal) as refused:
        dipped_ml(((0, 0), (500, 490_000)), dip)
    shown = "−1" if dip < 0 else "501"
    assert refused.value.text == (
        f"{shown} mm is outside the tank's own table, 0 to 500 mm: dip again, or fill the table "
        "up to there."
    )


@pytest.mark.parametrize(("width", "dip", "field"), [(0, 10, "width_mm"), (900, -1, "dip_mm")])
def test_a_tank_that_cannot_be_is_refused(width: int, dip: int, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        upright_ml(width, dip)
    assert refused.value.field == field
    assert refused.value.text == (
        "A tank's width is above 0 and a dip is not below it: measure again."
    )


@pytest.mark.parametrize(("moisture", "said"), [(1_299, "12.99 %"), (2_110, "21.1 %")])
def test_a_moisture_off_the_table_is_refused(moisture: int, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        density(moisture)
    assert refused.value.text == (
        f"{said} is outside the table of densities, 13.0 % to 21.0 %: weigh it instead."
    )


@pytest.mark.parametrize(("temperature", "said"), [(99, "9.9 °C"), (501, "50.1 °C")])
def test_too_cold_or_hot_a_tank_is_weighed(temperature: int, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        volume_ml(1_000, 1_800, temperature)
    assert refused.value.text == (
        f"{said} is outside 10.0 °C to 50.0 °C, for which a density can be told: weigh it instead."
    )


@given(st.integers(1_300, 2_100), st.integers(100, 500), st.integers(0, 10**7))
def test_a_weight_comes_back_from_its_volume(moisture: int, temperature: int, grams: int) -> None:
    again = weight_g(volume_ml(grams, moisture, temperature), moisture, temperature)
    assert abs(again - grams) <= 1


@given(st.integers(1_300, 2_099), st.integers(100, 499))
def test_wetter_or_warmer_is_never_heavier(moisture: int, temperature: int) -> None:
    here = density(moisture, temperature)
    assert density(moisture + 1, temperature) <= here
    assert density(moisture, temperature + 1) <= here


def test_specific_gravity_by_a_bottle() -> None:
    # Worked example at 123foodscience.com (S2; at 27 °C): 28.4773 g empty, 54.8809 g with
    # water, 65.2718 g with honey: 1.3935.
    assert gravity_by_bottle(28_477, 54_881, 65_272) == pytest.approx(139_354, abs=5)
    assert gravity_by_bottle(284_773, 548_809, 652_718) == 139_354
    with pytest.raises(Refusal) as refused:
        gravity_by_bottle(28_477, 28_477, 65_272)
    assert refused.value.text == (
        "The bottle with water has to weigh more than empty: weigh both again."
    )
