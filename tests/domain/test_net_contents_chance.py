"""How often samples pass at the limits: drawn by chance, against what scipy computes exactly.

The table that this gives stands in DEVELOPERS.md, "Chance".
"""

import numpy as np
import pytest
from scipy import stats

from honeyledger.assets import resource
from honeyledger.domain.net_contents import (
    NetRule,
    Plan,
    Verdict,
    chance_to_pass,
    fill_target,
    verdict,
)
from honeyledger.exchange.net_contents import usual_net_rule

FOLDER = resource("net_contents")
NET_G = 500
RULE = usual_net_rule(FOLDER, "average")
PASSES = (Verdict.IN_ORDER, Verdict.LOW_BY_CHANCE)
PLANS = [plan for plan in RULE.plans if plan.lot_from or plan.weigh == 20]
CASES = ("mean at the declared net", "2.5 % short", "at the fill target")


def accepted(rule: NetRule, plan: Plan, mean_mg: float, spread_mg: float, times: int) -> float:
    """The part of samples that pass, of jars weighed from a filler of this mean and spread."""
    draws = np.random.default_rng(20_260_724).normal(mean_mg, spread_mg, (times, plan.weigh))
    limits = rule.limits_of(NET_G)
    jars = np.rint(draws).astype(np.int64)
    short = (jars < limits.short_mg).sum(axis=1)
    far = (jars < limits.far_short_mg).sum(axis=1)
    spreads = jars.std(axis=1, ddof=1).astype(np.int64)
    totals = jars.sum(axis=1)
    rows = zip(totals.tolist(), spreads.tolist(), short.tolist(), far.tolist(), strict=True)
    passed = sum(
        verdict(NET_G, (plan.weigh, total, spread), plan, (few, none)) in PASSES
        for total, spread, few, none in rows
    )
    return passed / times


def filler_at(case: str, plan: Plan) -> tuple[float, float]:
    """The mean and spread of a filler at a limit, milligrams."""
    limits = RULE.limits_of(NET_G)
    if case == CASES[0]:
        return NET_G * 1000.0, 4_000.0
    if case == CASES[1]:
        spread = 9_000.0
        return limits.short_mg - float(stats.norm.ppf(0.025)) * spread, spread
    return float(fill_target(RULE, NET_G, 9_000, plan.lot_from or 1)), 9_000.0


def exactly(case: str, plan: Plan) -> float:
    """How often it passes by the one test that bites there; the others hardly ever do."""
    mean, spread = filler_at(case, plan)
    if case == CASES[0]:
        return float(stats.t.cdf(plan.chance / 1000 * np.sqrt(plan.weigh), plan.weigh - 1))
    limits = RULE.limits_of(NET_G)
    short, far = (
        float(stats.norm.cdf((limit - mean) / spread))
        for limit in (limits.short_mg, limits.far_short_mg)
    )
    few = float(stats.binom.cdf(plan.may_be_short, plan.weigh, (short - far) / (1 - far)))
    return few * float((1 - far) ** plan.weigh)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: f"{plan.weigh} jars")
@pytest.mark.parametrize("case", CASES)
def test_samples_pass_as_often_as_the_plan_intends(case: str, plan: Plan) -> None:
    """Within four standard errors of the draws, and what the other test refuses besides."""
    wanted = exactly(case, plan)
    off = abs(accepted(RULE, plan, *filler_at(case, plan), times=1_000) - wanted)
    assert off <= 4 * np.sqrt(wanted * (1 - wanted) / 1_000) + 0.01


def test_a_mean_at_the_declared_net_passes_in_995_of_1000() -> None:
    """Source: the factor is t(0.995, n - 1) / sqrt(n), as the schedule says."""
    for plan in PLANS:
        assert exactly(CASES[0], plan) == pytest.approx(0.995, abs=0.0002)
        k = float(stats.t.ppf(0.995, plan.weigh - 1)) / np.sqrt(plan.weigh)
        assert plan.chance == round(1000 * k)


def test_the_factors_of_the_united_states_follow_their_formula() -> None:
    """Computed: t(0.975, n - 1) / sqrt(n); the plan itself is a value from memory."""
    for plan in usual_net_rule(FOLDER, "us").plans:
        k = float(stats.t.ppf(0.975, plan.weigh - 1)) / np.sqrt(plan.weigh)
        assert plan.chance == pytest.approx(1000 * k, abs=2)


def test_at_the_fill_target_19_of_20_samples_pass() -> None:
    for plan in PLANS:
        assert 0.95 <= exactly(CASES[2], plan) < 0.955 or plan.weigh == 20
        mean, spread = filler_at(CASES[2], plan)
        own = chance_to_pass(plan, RULE.limits_of(NET_G), mean, spread)
        assert own == pytest.approx(exactly(CASES[2], plan), abs=1e-9)


@pytest.mark.full
@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: f"{plan.weigh} jars")
def test_the_table_in_the_docs(plan: Plan) -> None:
    """100,000 samples a cell, to a tenth of a percent as the table has them."""
    for case in CASES:
        wanted = exactly(case, plan)
        found = accepted(RULE, plan, *filler_at(case, plan), times=100_000)
        assert found == pytest.approx(wanted, abs=0.01)
