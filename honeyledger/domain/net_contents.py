"""Net contents of jars of one declared net: how short a jar may be, and what weighing some says.

The average system in its three parts: the mean is not below the declared net, few jars are short
by more than the tolerable deficiency, none by twice as much. Its tables are data, see
`exchange.net_contents`; a table that nobody has seen in its source is shown and decides nothing.
All of it is no more than a guide: what counts is the rule of the place where jars are sold.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import comb, isqrt
from statistics import NormalDist

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.standards import Mark

_WHOLE_GRAMS_FROM = 1_000
_FEWEST_SHORT = 1
FEWEST_FOR_TARGET = 5
PASSES = 0.95
"""How often a sample is to pass at the fill target: common practice, no source."""
NO_SUCH_NET_RULE = Sentence(
    "no-such-net-rule", "There is no rule for net contents called {name}: choose one of {names}."
)


class Verdict(Enum):
    """What the jars weighed say, worst last."""

    NONE_WEIGHED = "none weighed"
    IN_ORDER = "in order"
    LOW_BY_CHANCE = "low by chance"
    LOW_MEAN = "low mean"
    MANY_SHORT = "many short"
    FAR_SHORT = "far short"


@dataclass(frozen=True, slots=True)
class Step:
    """Up to a declared net, how short a jar may be: milligrams, else thousandths of the net.

    Args:
        upto_g: 0 for however much.
    """

    upto_g: int
    mg: int = 0
    permille: int = 0


@dataclass(frozen=True, slots=True)
class Plan:
    """How many to weigh of a lot, how many may be short, and what chance explains of the mean.

    Args:
        lot_from, lot_upto: jars in the lot; 0 for any.
        chance: thousandths of the spread by which the mean may be low.
    """

    weigh: int
    may_be_short: int
    chance: int
    lot_from: int = 0
    lot_upto: int = 0
    mark: Mark = Mark.SEEN

    def is_for(self, lot: int) -> bool:
        """Whether it is for a lot of so many jars."""
        return self.lot_from <= lot and (not self.lot_upto or lot <= self.lot_upto)


@dataclass(frozen=True, slots=True)
class NetRule:
    """The rule of a market.

    Args:
        far_short_times: how many times the deficiency no jar may be short by; 0 for no such limit.
        rounds_up: whether a deficiency is rounded up, to a tenth of a gram or a whole one.
    """

    name: str
    title: str
    market: str
    source: str
    as_of: str
    mark: Mark
    deficiency: tuple[Step, ...]
    plans: tuple[Plan, ...]
    far_short_times: int = 2
    rounds_up: bool = True
    note: str = ""

    def tolerable_mg(self, net_g: int) -> int:
        """The tolerable deficiency of a declared net, milligrams."""
        step = next(one for one in self.deficiency if not one.upto_g or net_g <= one.upto_g)
        exact = step.mg or net_g * step.permille
        if not self.rounds_up:
            return exact
        unit = 1_000 if net_g > _WHOLE_GRAMS_FROM else 100
        return -(-exact // unit) * unit

    def limits_of(self, net_g: int) -> "Limits":
        """Where jars of a declared net begin to be short, and far short; 0 for never."""
        tolerable, times = self.tolerable_mg(net_g), self.far_short_times
        far_mg = net_g * 1000 - times * tolerable if times else 0
        return Limits(net_g * 1000 - tolerable, far_mg)

    def plan_of(self, count: int, lot: int = 0) -> Plan:
        """The plan that so many jars weighed fill, of a lot of so many, 0 where nobody knows.

        Of fewer jars than any plan takes chance is not heard: there the mean is what it is.
        """
        fitting = [one for one in self.plans if one.weigh <= count]
        mine = [one for one in fitting if lot and one.is_for(lot)]
        if mine or fitting:
            return max(mine or fitting, key=lambda one: one.weigh)
        return Plan(count, min(_FEWEST_SHORT, self.plans[0].may_be_short), 0, mark=self.mark)

    def wanted(self, lot: int) -> Plan:
        """The plan for a lot of so many jars: the one that weighs the most of those for it."""
        fitting = [one for one in self.plans if one.is_for(lot)]
        return max(fitting or self.plans[:1], key=lambda one: (one.lot_from, one.weigh))


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
        target_mg: what the filler is to be set to, see `fill_target`; None of too few jars.
    """

    rule: NetRule
    net_g: int
    weighed: int
    mean_mg: int
    spread_mg: int
    short: int
    far_short: int
    may_be_short: int
    verdict: Verdict
    target_mg: int | None
    is_verified: bool

    @property
    def limits(self) -> Limits:
        """Where its jars begin to be short, and far short."""
        return self.rule.limits_of(self.net_g)


def named(rules: Sequence[NetRule], name: str) -> NetRule:
    """The rule of a name.

    Raises:
        Refusal: there is none.
    """
    found = next((one for one in rules if one.name == name.strip().casefold()), None)
    if found is None:
        names = ", ".join(one.name for one in rules)
        raise Refusal(NO_SUCH_NET_RULE, field="net_rule", name=name, names=names)
    return found


def checked(rule: NetRule, net_g: int, weights_mg: Sequence[int], lot: int = 0) -> NetCheck:
    """What jars of a declared net say that weigh so much, net, out of a lot of so many."""
    limits, count = rule.limits_of(net_g), len(weights_mg)
    total = sum(weights_mg)
    mean_mg = (total * 2 + count) // (2 * count) if count else 0
    short = sum(one < limits.short_mg for one in weights_mg)
    far_short = sum(one < limits.far_short_mg for one in weights_mg)
    spread_mg, plan = spread_of(weights_mg), rule.plan_of(count, lot)
    target = fill_target(rule, net_g, spread_mg, lot) if count >= FEWEST_FOR_TARGET else None
    return NetCheck(
        rule,
        net_g,
        count,
        mean_mg,
        spread_mg,
        short,
        far_short,
        plan.may_be_short,
        verdict(net_g, (count, total, spread_mg), plan, (short, far_short)),
        target,
        rule.mark.decides and plan.mark.decides,
    )


def verdict(
    net_g: int, weighed: tuple[int, int, int], plan: Plan, found_short: tuple[int, int]
) -> Verdict:
    """What so many jars say that weigh so much together.

    Args:
        weighed: how many, their weight together, and their spread, milligrams.
        found_short: how many are short, and how many of these far short.
    """
    short, far_short = found_short
    count, total_mg, spread_mg = weighed
    missing_mg = net_g * 1000 * count - total_mg
    if not count:
        return Verdict.NONE_WEIGHED
    if far_short:
        return Verdict.FAR_SHORT
    if short > plan.may_be_short:
        return Verdict.MANY_SHORT
    if missing_mg <= 0:
        return Verdict.IN_ORDER
    is_chance = missing_mg * 1000 <= plan.chance * spread_mg * count
    return Verdict.LOW_BY_CHANCE if is_chance else Verdict.LOW_MEAN


def fill_target(rule: NetRule, net_g: int, spread_mg: int, lot: int = 0) -> int:
    """The lowest mean, milligrams, at which a filler of this spread just satisfies the rule.

    It is not below the declared net, and so high that a sample of the plan passes 19 times in 20
    by its short jars; jars are taken to spread evenly about their mean (a normal distribution).
    """
    plan = rule.wanted(lot) if lot else max(rule.plans, key=lambda one: one.weigh)
    limits, tenth = rule.limits_of(net_g), 100  # a filler is set to tenths of a gram
    low, high = net_g * 10, net_g * 10 + 8 * spread_mg // tenth + 1
    while low < high:
        middle = (low + high) // 2
        if chance_to_pass(plan, limits, middle * tenth, spread_mg) >= PASSES:
            high = middle
        else:
            low = middle + 1
    return low * tenth


def chance_to_pass(plan: Plan, limits: Limits, mean_mg: float, spread_mg: float) -> float:
    """How often a sample has no more short jars than it may, and none far short."""
    if not spread_mg:
        return float(mean_mg >= limits.short_mg)
    jars = NormalDist(mean_mg, spread_mg)
    short, far = jars.cdf(limits.short_mg), jars.cdf(limits.far_short_mg)
    return sum(
        comb(plan.weigh, some) * (short - far) ** some * (1 - short) ** (plan.weigh - some)
        for some in range(plan.may_be_short + 1)
    )


def spread_of(weights_mg: Sequence[int]) -> int:
    """The standard deviation, rounded down to the milligram, without a binary fraction."""
    count = len(weights_mg)
    if count < 2:
        return 0
    total = sum(weights_mg)
    squares = sum(one * one for one in weights_mg)
    return isqrt((count * squares - total * total) // (count * (count - 1)))
