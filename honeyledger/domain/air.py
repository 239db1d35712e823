"""Air and honey: the humidity at which honey of a moisture neither takes up water nor loses it."""

from typing import NoReturn

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.rows_between import between
from honeyledger.domain.units import format_moisture

OFF_THE_AIR_TABLE = Sentence(
    "off-the-air-table",
    "Honey of {moisture} in air of {humidity} is outside the table, {driest} to {wettest} water "
    "and {dry} to {damp} humidity: read both again.",
)

# Source: clover honey, Martin 1939 after White, as reprinted at
# https://foodiran.net/en/specialty-details-of-honey/; 17.4 % at 58 % is said in its text, too.
# Moisture and relative humidity, both in hundredths of a percent.
BALANCE = ((1_610, 5_200), (1_740, 5_800), (2_150, 6_600), (2_890, 7_600), (3_390, 8_100))
DRIES, WETS, HOLDS, UNKNOWN = "dries", "wets", "holds", ""
NEAR = 100
"""Within one percent of humidity nobody can tell which way it goes: value from memory."""


def balance_humidity(moisture: int) -> int | None:
    """The humidity that honey of this moisture is in balance with; None outside the table."""
    return between(moisture, BALANCE)


def balance_moisture(humidity: int) -> int | None:
    """The moisture that honey comes to in air of this humidity; None outside the table."""
    return between(humidity, [(there, here) for here, there in BALANCE])


def what_air_does(moisture: int, humidity: int) -> str:
    """Whether air of this humidity dries honey of this moisture, wets it, or leaves it as it is.

    Beyond the table only what follows from its ends is said.
    """
    (driest, dry_air), (wettest, wet_air) = BALANCE[0], BALANCE[-1]
    if moisture < driest:
        return WETS if humidity >= dry_air else UNKNOWN
    if moisture > wettest:
        return DRIES if humidity <= wet_air else UNKNOWN
    gap = humidity - (balance_humidity(moisture) or 0)
    if abs(gap) <= NEAR:
        return HOLDS
    return WETS if gap > 0 else DRIES


def told_air(moisture: int, humidity: int) -> str:
    """What air does, of figures that a person typed: refused where the table says nothing of them.

    Raises:
        Refusal: it cannot be told.
    """
    return what_air_does(moisture, humidity) or _refuse(moisture, humidity)


def told_balance(target: int, humidity: int) -> int | None:
    """The moisture that air of a typed humidity brings honey to, which is to be dried to a target.

    None where the air is drier than the table goes and the target is in it: such air can do it.

    Raises:
        Refusal: it cannot be told.
    """
    found = balance_moisture(humidity)
    if found is None and not (humidity < BALANCE[0][1] and target >= BALANCE[0][0]):
        _refuse(target, humidity)
    return found


def _refuse(moisture: int, humidity: int) -> NoReturn:
    (driest, dry), (wettest, damp) = BALANCE[0], BALANCE[-1]
    is_in = dry <= humidity <= damp
    raise Refusal(
        OFF_THE_AIR_TABLE,
        field="moisture" if is_in else "humidity",
        moisture=format_moisture(moisture),
        humidity=format_moisture(humidity),
        driest=format_moisture(driest),
        wettest=format_moisture(wettest),
        dry=format_moisture(dry),
        damp=format_moisture(damp),
    )
