"""A plan's figures as people type them: in hours, minutes, percent and the house's unit."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    MassUnit,
    format_number,
    format_weight,
    parse_figure,
    parse_mass_g,
)
from honeyledger.services.season_plan import LIMITS, HousePlan, PlanYard

NO_YARD_TYPED = Sentence(
    "no-yard-typed",
    "{text} is no yard with its colonies: type its name, an equals sign and how many, such as "
    "Long Field=32.",
)
LARGEST = 1_000_000_000
_MINUS = re.compile(r"^\s*[-−]")
_UNITS: Mapping[str, str] = {
    "weather_permille": "%",
    "kept_permille": "%",
    "pace_percent": "%",
    "spread_percent": "%",
    "jars_percent": "%",
    "warm_hours": "h",
    "settle_hours": "h",
    "shift_tenths": "h",
    "spin_tenths": "min",
    "load_tenths": "min",
    "drum_tenths": "min",
    "clean_minutes": "min",
    "stop_minutes": "min",
}


def parse_plan_figure(name: str, text: str, unit: MassUnit) -> int:
    """Read a figure of a plan; one below zero is read, too, for the plan tells what cannot be.

    Raises:
        Refusal: it is no number.
    """
    limit = LIMITS[name]
    below = bool(_MINUS.match(text))
    digits = _MINUS.sub("", text).strip().removesuffix("%").strip()
    if name.endswith("_g"):
        value = parse_mass_g(digits, "g" if name == "jar_g" else unit, field=name)
    else:
        value = parse_figure(
            digits,
            str(limit.what),
            "24",
            decimals=len(str(limit.scale)) - 1,
            bounds=(0, LARGEST),
            field=name,
        )
    return -value if below else value


def with_yards(plan: HousePlan, typed: Sequence[str]) -> HousePlan:
    """The plan with some yards' colonies as typed, `YARD=COLONIES`; others stay as they are.

    Raises:
        Refusal: it is no yard with a number behind it.
    """
    yards = {yard.name: yard.colonies for yard in plan.yards}
    for text in typed:
        name, sign, count = text.rpartition("=")
        if not sign or not name.strip():
            raise Refusal(NO_YARD_TYPED, field="yards", text=text)
        known = next((one for one in yards if one.casefold() == name.strip().casefold()), "")
        yards[known or name.strip()] = parse_plan_figure("colonies", count, "kg")
    return replace(plan, yards=tuple(PlanYard(name, count) for name, count in yards.items()))


def plan_figure(name: str, value: int, unit: MassUnit) -> str:
    """A figure of a plan as it is shown and typed again, without its unit."""
    if name == "jar_g":
        return str(value)
    if name.endswith("_g"):
        return format_weight(value, unit).removesuffix(f" {unit}")
    scale = LIMITS[name].scale
    if scale == 1:
        return format_number(value)
    decimals = len(str(scale)) - 1
    shown = format_number(Fraction(value, scale), decimals)
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def plan_unit(name: str, unit: MassUnit) -> str:
    """What stands behind a figure of a plan; nothing where it is a count."""
    if name == "jar_g":
        return "g"
    return unit if name.endswith("_g") else _UNITS.get(name, "")
