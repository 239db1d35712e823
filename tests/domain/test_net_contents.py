"""Net contents against published tables and worked examples."""

import pytest

from honeyledger.domain.net_contents import (
    Limits,
    Verdict,
    checked,
    limits_of,
    plan_of,
    tolerable_mg,
    verdict,
)


@pytest.mark.parametrize(
    ("net_g", "tolerable", "limits"),
    [
        # Source: 500 g with 485 and 470, and 3 kg with 45 g, are printed in the guide to the
        # average quantity system (industry.gov.au); the others are computed from the table of
        # the National Trade Measurement Regulations 2009, regulation 4.36.
        (30, 2_700, Limits(27_300, 24_600)),
        (42, 3_800, Limits(38_200, 34_400)),
        (50, 4_500, Limits(45_500, 41_000)),
        (125, 5_700, Limits(119_300, 113_600)),
        (227, 9_000, Limits(218_000, 209_000)),
        (250, 9_000, Limits(241_000, 232_000)),
        (340, 10_200, Limits(329_800, 319_600)),
        (454, 13_700, Limits(440_300, 426_600)),
        (500, 15_000, Limits(485_000, 470_000)),
        (1_000, 15_000, Limits(985_000, 970_000)),
        (1_500, 23_000, Limits(1_477_000, 1_454_000)),
        (3_000, 45_000, Limits(2_955_000, 2_910_000)),
        (15_000, 150_000, Limits(14_850_000, 14_700_000)),
        (20_000, 200_000, Limits(19_800_000, 19_600_000)),
    ],
)
def test_the_tolerable_deficiency(net_g: int, tolerable: int, limits: Limits) -> None:
    assert tolerable_mg(net_g) == tolerable
    assert limits_of(net_g) == limits


@pytest.mark.parametrize(
    ("net_g", "count", "mean_g", "short", "expected"),
    [
        # Source: "Examples of AQS testing", industry.gov.au: 500 g, 1.5 kg and 3 kg.
        (500, 125, 501, (2, 0), Verdict.IN_ORDER),
        (1_500, 125, 1_600, (4, 0), Verdict.IN_ORDER),
        (3_000, 50, 3_100, (1, 1), Verdict.FAR_SHORT),
    ],
)
def test_worked_examples(
    net_g: int, count: int, mean_g: int, short: tuple[int, int], expected: Verdict
) -> None:
    assert verdict(net_g, count, mean_g * 1000 * count, 0, short) is expected


# A computed example: 20 jars of 250 g, mean 250.30, spread 1.081, all within the limits.
TWENTY = (
    *(251, 250, 249, 252, 250, 251, 248, 250, 251, 250),
    *(249, 252, 251, 250, 250, 251, 249, 250, 252, 250),
)


def test_twenty_jars_in_order() -> None:
    check = checked(250, [one * 1000 for one in TWENTY])
    assert (check.weighed, check.mean_mg, check.spread_mg) == (20, 250_300, 1_080)
    assert (check.short, check.far_short, check.may_be_short) == (0, 0, 1)
    assert check.verdict is Verdict.IN_ORDER


def test_a_mean_below_is_chance_only_within_the_limit_of_the_plan() -> None:
    """The limit of 20 jars with that spread is 250 - 0.640 x 1.081 = 249.308 g (computed)."""
    low = [one * 1000 - 990 for one in TWENTY]
    assert checked(250, low).mean_mg == 249_310
    assert checked(250, low).verdict is Verdict.LOW_BY_CHANCE
    lower = [one * 1000 - 995 for one in TWENTY]
    assert checked(250, lower).verdict is Verdict.LOW_MEAN
    assert checked(250, low[:19]).verdict is Verdict.LOW_MEAN, "too few to speak of chance"


def test_two_short_of_a_few_are_too_many_and_one_far_short_is() -> None:
    full = [506_000] * 18
    assert checked(500, [*full, 484_900]).verdict is Verdict.IN_ORDER
    assert checked(500, [*full, 484_900, 484_900]).verdict is Verdict.MANY_SHORT
    assert checked(500, [*full, 469_900]).verdict is Verdict.FAR_SHORT
    assert checked(500, [*full, 485_000, 485_000]).short == 0


def test_nothing_weighed_says_nothing() -> None:
    check = checked(500, [])
    assert (check.verdict, check.mean_mg, check.spread_mg) == (Verdict.NONE_WEIGHED, 0, 0)
    assert checked(500, [501_000]).spread_mg == 0


@pytest.mark.parametrize(
    ("count", "expected"),
    [
        # Source: United Kingdom SI 2006/659, schedule 2 (30 and 50 for the mean, 50, 80 and 125
        # for the number that is short), Directive 76/211/EEC, annex II 2.2.2 (20).
        (19, (1, 0)),
        (20, (1, 640)),
        (30, (1, 503)),
        (50, (3, 379)),
        (80, (5, 295)),
        (125, (7, 234)),
        (900, (7, 234)),
    ],
)
def test_how_many_may_be_short(count: int, expected: tuple[int, int]) -> None:
    assert plan_of(count) == expected
