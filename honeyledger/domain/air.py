"""Air and honey: the humidity at which honey of a moisture neither takes up water nor loses it."""

from honeyledger.domain.rows_between import between

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
