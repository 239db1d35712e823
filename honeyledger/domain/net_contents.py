"""Net contents of jars of one declared net: how short a jar may be, and what weighing some says.

The average-weight rule in its three parts: the mean is not below the declared net, few jars are
short by more than the tolerable deficiency, none by twice as much. It is given as those sources
have it, and is no more than a guide: what counts is the rule of the place where jars are sold.

Sources: tolerable deficiency from the National Trade Measurement Regulations 2009 (Australia),
regulation 4.36, the same in Schedule 7A of New Zealand's rules and, for the first six rows, in
Directive 76/211/EEC, annex I 2.4; rounded up as the Australian footnote says. How many may be
short from the Weights and Measures (Packaged Goods) Regulations 2006 (United Kingdom), schedule 2,
and for 20 jars from Directive 76/211/EEC, annex II 2.2.2. The factor of the mean from that
schedule 2, paragraph 4; for 80 and 125 it is the same formula, t(0.995, n - 1) / sqrt(n).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import isqrt

RULE = "average-weight rule, Directive 76/211/EEC and United Kingdom regulations of 2006"
# Declared net up to, grams; then tenths of a gram, or thousandths of the net.
_DEFICIENCY = (
    (50, 0, 90),
    (100, 45, 0),
    (200, 0, 45),
    (300, 90, 0),
    (500, 0, 30),
    (1_000, 150, 0),
    (10_000, 0, 15),
    (15_000, 1_500, 0),
)
_LARGEST_PERMILLE = 10
_WHOLE_GRAMS_FROM = 1_000
# Jars weighed from, how many of them may be short, and thousandths of the spread that the mean
# of so many may lie below the declared net by chance alone.
_PLANS = ((125, 7, 234), (80, 5, 295), (50, 3, 379), (30, 1, 503), (20, 1, 640))
_FEWEST_SHORT = 1


class Verdict(Enum):
    """What the jars weighed say, worst last."""

    NONE_WEIGHED = "none weighed"
    IN_ORDER = "in order"
    LOW_BY_CHANCE = "low by chance"
    LOW_MEAN = "low mean"
    MANY_SHORT = "many short"
    FAR_SHORT = "far short"


@dataclass(frozen=True, slots=True)
class Limits:
    """Below `short_mg` a jar is short, below `far_short_mg` it may not go out at all."""

    short_mg: int
    far_short_mg: int


@dataclass(frozen=True, slots=True)
class NetCheck:
    """Jars weighed against their declared net, in milligrams.

    Args:
        spread_mg: the standard deviation of the jars weighed; 0 of fewer than two.
        short: how many are short by more than the tolerable deficiency, `far_short` included.
        may_be_short: how many of so many may be.
    """

    net_g: int
    weighed: int
    mean_mg: int
    spread_mg: int
    short: int
    far_short: int
    may_be_short: int
    verdict: Verdict


def tolerable_mg(net_g: int) -> int:
    """The tolerable deficiency of a declared net, milligrams."""
    tenths = -(-net_g * _LARGEST_PERMILLE // 100)
    for upto_g, fixed, permille in _DEFICIENCY:
        if net_g <= upto_g:
            tenths = fixed or -(-net_g * permille // 100)
            break
    if net_g > _WHOLE_GRAMS_FROM:
        tenths = -(-tenths // 10) * 10
    return tenths * 100


def limits_of(net_g: int) -> Limits:
    """Where jars of a declared net begin to be short, and far short."""
    tolerable = tolerable_mg(net_g)
    return Limits(net_g * 1000 - tolerable, net_g * 1000 - 2 * tolerable)


def checked(net_g: int, weights_mg: Sequence[int]) -> NetCheck:
    """What jars of a declared net say that weigh so much, net."""
    limits, count = limits_of(net_g), len(weights_mg)
    total = sum(weights_mg)
    mean_mg = (total * 2 + count) // (2 * count) if count else 0
    short = sum(one < limits.short_mg for one in weights_mg)
    far_short = sum(one < limits.far_short_mg for one in weights_mg)
    spread_mg = _spread(weights_mg)
    return NetCheck(
        net_g,
        count,
        mean_mg,
        spread_mg,
        short,
        far_short,
        plan_of(count)[0],
        verdict(net_g, count, total, spread_mg, (short, far_short)),
    )


def verdict(
    net_g: int, count: int, total_mg: int, spread_mg: int, found_short: tuple[int, int]
) -> Verdict:
    """What so many jars say that weigh so much together.

    Args:
        found_short: how many are short, and how many of these far short.
    """
    short, far_short = found_short
    may_be_short, by_chance = plan_of(count)
    missing_mg = net_g * 1000 * count - total_mg
    if not count:
        return Verdict.NONE_WEIGHED
    if far_short:
        return Verdict.FAR_SHORT
    if short > may_be_short:
        return Verdict.MANY_SHORT
    if missing_mg <= 0:
        return Verdict.IN_ORDER
    is_chance = missing_mg * 1000 <= by_chance * spread_mg * count
    return Verdict.LOW_BY_CHANCE if is_chance else Verdict.LOW_MEAN


def plan_of(count: int) -> tuple[int, int]:
    """How many of so many jars may be short, and thousandths of the spread that chance explains.

    Of fewer than twenty jars chance is not heard: there the mean is what it is.
    """
    for least, may_be_short, by_chance in _PLANS:
        if count >= least:
            return may_be_short, by_chance
    return _FEWEST_SHORT, 0


def _spread(weights_mg: Sequence[int]) -> int:
    """The standard deviation, rounded down to the milligram, without a binary fraction."""
    count = len(weights_mg)
    if count < 2:
        return 0
    total = sum(weights_mg)
    squares = sum(one * one for one in weights_mg)
    return isqrt((count * squares - total * total) // (count * (count - 1)))
