"""The words of this station, in the language in use, and figures without their unit."""

from datetime import date
from fractions import Fraction

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.days import format_day, short_day
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_moisture,
    format_number,
)

BIG_G = 10_000_000  # from ten tonnes on a mass is told in tonnes, where the house weighs in kg


def tr(text: str) -> str:
    """A word of this station."""
    return QCoreApplication.translate("season", text)


def counted(number: int, one: str, many: str) -> str:
    """How many, with the right word for one."""
    return one if number == 1 else many.format(n=format_number(number))


def bare(grams: int, unit: MassUnit, decimals: int = 0) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")


def mass(grams: int, unit: MassUnit) -> str:
    """A mass as a sentence says it."""
    if unit == "kg" and abs(grams) >= BIG_G:
        return f"{format_number(Fraction(grams, 1_000_000), 1)} t"
    return format_mass(grams, unit, 0)


def percent(hundredths: int | None, decimals: int = 1) -> str:
    """Hundredths of a percent without the sign, which stands in the head; "" for none."""
    if hundredths is None:
        return ""
    return format_moisture(hundredths, decimals).removesuffix(" %")


def span(first: date, season: int) -> str:
    """A day without its year, where that is the season's."""
    return short_day(first) if first.year == season else format_day(first)
