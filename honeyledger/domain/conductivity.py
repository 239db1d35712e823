"""Electrical conductivity of honey, brought to 20 °C."""

from fractions import Fraction

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_temperature, rounded

TOO_COLD_OR_HOT = Sentence(
    "conductivity-too-cold-or-hot",
    "{temperature} is too far from 20 °C to correct a conductivity: bring the solution to between "
    "{lowest} and {highest} and read again.",
)

# 3.2 % of the reading a degree, down above 20 °C and up below, of a solution of 20 g dry matter in
# 100 ml; within 15 to 25 °C: value from memory (method of the International Honey Commission).
_PERMILLE_A_DEGREE = 32
COLDEST, HOTTEST = 150, 250


def at_20(microsiemens: int, temperature: int) -> int:
    """What a reading in microsiemens a centimetre would be at 20 °C.

    Args:
        temperature: of the solution, tenths of a degree Celsius.

    Raises:
        Refusal: it was read too far from 20 °C.
    """
    if not COLDEST <= temperature <= HOTTEST:
        raise Refusal(
            TOO_COLD_OR_HOT,
            field="temperature",
            temperature=format_temperature(temperature),
            lowest=format_temperature(COLDEST),
            highest=format_temperature(HOTTEST),
        )
    part = Fraction(_PERMILLE_A_DEGREE * (200 - temperature), 10_000)
    return rounded(microsiemens * (1 + part))
