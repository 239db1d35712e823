"""The shipped rules for net contents against the tables they are from."""

import pytest

from honeyledger.assets import resource
from honeyledger.domain.net_contents import NetRule, Verdict, checked, verdict
from honeyledger.domain.standards import Mark
from honeyledger.exchange.net_contents import net_rules, usual_net_rule

FOLDER = resource("net_contents")
RULES = {rule.name: rule for rule in net_rules(FOLDER)}


def test_there_are_these_rules_and_only_seen_ones_decide() -> None:
    assert {name: rule.mark.decides for name, rule in RULES.items()} == {
        "average": True,
        "oiml-r87": True,
        "new-zealand": True,
        "us": False,
    }
    assert all(rule.source for rule in RULES.values())
    assert usual_net_rule(FOLDER, "") is usual_net_rule(FOLDER, "no such") is RULES["average"]
    assert usual_net_rule(FOLDER, " US ") is RULES["us"]


@pytest.mark.parametrize(
    ("net_g", "tolerable"),
    [
        # Source: National Trade Measurement Regulations 2009 (Australia), regulation 4.36; every
        # row with its ends. 500 g and 3 kg are printed in the guide at industry.gov.au, too.
        *((30, 2_700), (50, 4_500), (51, 4_500), (100, 4_500), (101, 4_600), (200, 9_000)),
        *((201, 9_000), (300, 9_000), (301, 9_100), (500, 15_000), (501, 15_000)),
        *((1_000, 15_000), (1_001, 16_000), (3_000, 45_000), (10_000, 150_000)),
        *((10_001, 150_000), (15_000, 150_000), (15_001, 151_000), (50_000, 500_000)),
    ],
)
def test_the_tolerable_deficiency_of_every_row(net_g: int, tolerable: int) -> None:
    for name in ("average", "oiml-r87", "new-zealand"):
        assert RULES[name].tolerable_mg(net_g) == tolerable


@pytest.mark.parametrize(
    ("net_g", "lot", "count", "mean_g", "short", "expected"),
    [
        # Source: "Examples of AQS testing", industry.gov.au. The second is of 750 ml, here as g.
        (500, 3_500, 125, 501, (2, 0), Verdict.IN_ORDER),
        (750, 130, 50, 752, (1, 1), Verdict.FAR_SHORT),
        (1_500, 5_000, 125, 1_600, (4, 0), Verdict.IN_ORDER),
        (3_000, 148, 50, 3_100, (1, 1), Verdict.FAR_SHORT),
    ],
)
def test_worked_lots(
    net_g: int, lot: int, count: int, mean_g: int, short: tuple[int, int], expected: Verdict
) -> None:
    for rule in (RULES["average"], RULES["oiml-r87"]):
        assert rule.wanted(lot).weigh == count
        weighed = (count, mean_g * 1000 * count, 0)
        assert verdict(net_g, weighed, rule.plan_of(count, lot), short) is expected


def _plans(rule: NetRule) -> list[tuple[int, int, int, int, int]]:
    return [(p.lot_from, p.lot_upto, p.weigh, p.may_be_short, p.chance) for p in rule.plans]


def test_the_plans_are_those_of_their_sources() -> None:
    # Source: United Kingdom SI 2006/659, schedule 2; Directive 76/211/EEC, annex II 2.2.2 (20).
    assert _plans(RULES["average"]) == [
        *((0, 0, 20, 1, 640), (0, 0, 30, 1, 503), (100, 500, 50, 3, 379)),
        *((501, 3_200, 80, 5, 295), (3_201, 0, 125, 7, 234)),
    ]
    # Source: New Zealand, Schedule 7A, legislation.govt.nz DLM302360.
    assert _plans(RULES["new-zealand"]) == [
        *((13, 39, 12, 0, 746), (40, 79, 12, 1, 826), (80, 149, 12, 2, 860)),
        *((150, 399, 32, 3, 465), (400, 4_000, 32, 4, 483), (4_001, 0, 80, 6, 295)),
    ]


@pytest.mark.parametrize(
    ("net_g", "allowed_mg"),
    # Value from memory, with two anchors seen at second hand: 113 g has 7 g, 3 oz (85 g) 0.25 oz.
    [(113, 7_200), (85, 7_200), (454, 19_900), (20, 2_000), (30_000, 600_000)],
)
def test_the_table_of_the_united_states_is_shown_only(net_g: int, allowed_mg: int) -> None:
    rule = RULES["us"]
    assert rule.mark is Mark.FROM_MEMORY
    assert rule.tolerable_mg(net_g) == allowed_mg
    assert not checked(rule, net_g, [net_g * 1000] * 12).is_verified


def test_a_sample_at_second_hand() -> None:
    # Source: a help page of a program for statistics, at second hand: mean 454.5 g, in order.
    weights = (452, 453, 453, 454, 454, 454, 455, 455, 455, 456, 456, 457)
    check = checked(RULES["us"], 454, [one * 1000 for one in weights], 250)
    assert (check.mean_mg, check.spread_mg, check.verdict) == (454_500, 1_445, Verdict.IN_ORDER)
