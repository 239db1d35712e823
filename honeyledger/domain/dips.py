"""What stands in a tank: its volume by a dip, and its weight by moisture and temperature.

Lengths are millimetres, volumes millilitres, densities grams a litre. A tank's own table of dips
comes before any formula; an upright round tank can do without one.
"""

from collections.abc import Sequence
from fractions import Fraction

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.rows_between import between
from honeyledger.domain.units import format_moisture, format_number, format_temperature, rounded

NO_DENSITY = Sentence(
    "no-density",
    "{moisture} is outside the table of densities, {lowest} to {highest}: weigh it instead.",
)
TOO_COLD_OR_HOT = Sentence(
    "dip-too-cold-or-hot",
    "{temperature} is outside {lowest} to {highest}, for which a density can be told: weigh it "
    "instead.",
)
OFF_THE_DIPS = Sentence(
    "off-the-dips",
    "{dip} mm is outside the tank's own table, {lowest} to {highest} mm: dip again, or fill the "
    "table up to there.",
)
NO_BOTTLE = Sentence(
    "no-bottle", "The bottle with water has to weigh more than empty: weigh both again."
)
NO_TANK = Sentence(
    "no-tank-measures", "A tank's width is above 0 and a dip is not below it: measure again."
)

# Specific gravity 20/20 °C in ten-thousandths by moisture in hundredths of a percent: Wedmore and
# White, values from memory, so a weight from a dip is an estimate; two secondary sources are near
# it at 17 and 18 % (1.423 and 1.417).
GRAVITY = (
    (1_300, 14_457),
    (1_400, 14_404),
    (1_500, 14_350),
    (1_600, 14_295),
    (1_700, 14_237),
    (1_800, 14_171),
    (1_900, 14_101),
    (2_000, 14_027),
    (2_100, 13_950),
)
# Water at 20 °C, milligrams a litre.
_WATER_MG = 998_203
# A degree warmer, honey is lighter by 0.6 g a litre: value from memory.
_LIGHTER_DG = 6
COLDEST, HOTTEST = 100, 500
"""10 to 50 °C: value from memory."""
# Pi as a fraction, right to a millionth, so that the same dip always gives the same millilitres.
_PI = Fraction(355, 113)


def density(moisture: int, temperature: int = 200) -> int:
    """Grams a litre of honey of a moisture, at a temperature in tenths of a degree Celsius.

    Raises:
        Refusal: it is outside what the table or the correction are for.
    """
    return rounded(_density(moisture, temperature))


def _density(moisture: int, temperature: int) -> Fraction:
    gravity = between(moisture, GRAVITY)
    if gravity is None:
        raise Refusal(
            NO_DENSITY,
            field="moisture",
            moisture=format_moisture(moisture, 2 if moisture % 10 else 1),
            lowest=format_moisture(GRAVITY[0][0]),
            highest=format_moisture(GRAVITY[-1][0]),
        )
    if not COLDEST <= temperature <= HOTTEST:
        raise Refusal(
            TOO_COLD_OR_HOT,
            field="temperature",
            temperature=format_temperature(temperature),
            lowest=format_temperature(COLDEST),
            highest=format_temperature(HOTTEST),
        )
    at_20 = Fraction(gravity * _WATER_MG, 10_000 * 1_000)
    return at_20 - Fraction(_LIGHTER_DG * (temperature - 200), 100)


def weight_g(volume_ml: int, moisture: int, temperature: int = 200) -> int:
    """What a volume of honey weighs; refused as `density` is."""
    return rounded(volume_ml * _density(moisture, temperature) / 1_000)


def volume_ml(weight_g: int, moisture: int, temperature: int = 200) -> int:
    """The room a weight of honey takes; refused as `density` is."""
    return rounded(weight_g * 1_000 / _density(moisture, temperature))


def upright_ml(width_mm: int, dip_mm: int) -> int:
    """What stands in an upright round tank, flat at the bottom, up to a dip.

    Raises:
        Refusal: there is no such tank or dip.
    """
    if width_mm <= 0 or dip_mm < 0:
        raise Refusal(NO_TANK, field="dip_mm" if width_mm > 0 else "width_mm")
    return rounded(_PI * width_mm**2 * dip_mm / 4_000)


def dipped_ml(dips: Sequence[tuple[int, int]], dip_mm: int) -> int:
    """What stands in a tank by its own table of dips and millilitres, rising.

    Raises:
        Refusal: the dip is outside the table.
    """
    found = between(dip_mm, dips)
    if found is None:
        raise Refusal(
            OFF_THE_DIPS,
            field="dip_mm",
            dip=format_number(dip_mm),
            lowest=format_number(dips[0][0]),
            highest=format_number(dips[-1][0]),
        )
    return found


def gravity_by_bottle(empty: int, with_water: int, with_honey: int) -> int:
    """Specific gravity, in hundred-thousandths, by a bottle weighed empty, with water, with honey.

    All three in the same unit.

    Raises:
        Refusal: the bottle weighs no more with water than empty.
    """
    if not 0 <= empty < with_water:
        raise Refusal(NO_BOTTLE, field="with_water")
    return rounded(Fraction((with_honey - empty) * 100_000, with_water - empty))
