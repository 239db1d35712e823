"""Losses on control charts: a leak, a bad scale and slack spinning show within days."""

from dataclasses import replace
from datetime import date, timedelta

from honeyledger.services.season_control import (
    control_charts,
    limits_shown,
    out_of_usual,
    part_name,
)
from honeyledger.services.season_losses import RunLoss

SHARES = (10, 14, 9, 12, 15, 8, 11, 13, 10, 12, 9, 14, 11, 13, 8, 15, 12, 10, 13, 11)


def _run(at: int, per_mille: int, line: str = "Line A", wet: int | None = 30) -> RunLoss:
    return RunLoss(
        code=f"R{at}",
        line=line,
        day=date(2026, 7, 1) + timedelta(days=at),
        is_open=False,
        supers=100,
        in_g=1_000_000,
        drums_g=900_000,
        cappings_g=60_000 + 500 * (at % 3),
        cappings_to_follow=False,
        foam_g=3_000 + 100 * (at % 2),
        spilled_g=0,
        wet_g=None if wet is None else (wet + at % 4) * 1_000,
        dried_g=0,
        difference_g=per_mille * 1_000,
    )


QUIET = [_run(at, share) for at, share in enumerate(SHARES)]


def test_a_leak_shows_on_its_first_day() -> None:
    charts = control_charts([*QUIET, _run(20, 60)])
    out = out_of_usual(charts)
    assert [(chart.line, chart.part, row.run.code) for chart, row in out] == [
        ("Line A", "difference_g", "R20")
    ]
    assert out[0][1].share == 600
    assert out[0][1].look == (
        "Honey is missing: look for a leak, a drum nobody wrote down, or a drum scale that reads "
        "low."
    )


def test_a_small_leak_that_stays_shows_within_days() -> None:
    leaking = [_run(20 + at, share + 6) for at, share in enumerate(SHARES[:6])]
    out = out_of_usual(control_charts([*QUIET, *leaking]))
    first = min(row.run.day for _, row in out)
    assert first <= date(2026, 7, 1) + timedelta(days=23)
    assert {row.alarm.rule for _, row in out if row.alarm} == {"two of three", "beyond"}


def test_more_out_than_in_and_more_left_in_combs_say_what_to_look_at() -> None:
    out = out_of_usual(control_charts([*QUIET, _run(20, -40, wet=70)]))
    assert {(chart.part, row.look.split(":")[0]) for chart, row in out} == {
        ("difference_g", "More came out than went in"),
        ("wet_g", "More stays in the combs"),
    }


def test_each_machine_is_judged_by_its_own_runs() -> None:
    other = [_run(at, share + 40, line="Line B") for at, share in enumerate(SHARES)]
    charts = control_charts([*QUIET, *other])
    assert out_of_usual(charts) == []
    centres = {
        chart.line: round(chart.limits.centre)
        for chart in charts
        if chart.part == "difference_g" and chart.limits
    }
    assert centres == {"Line A": 115, "Line B": 515}


def test_limits_are_of_the_season_before_where_it_has_enough() -> None:
    first = _run(30, 60)
    assert out_of_usual(control_charts([first])) == []
    (found,) = out_of_usual(control_charts([first], QUIET))
    assert found[1].run is first


def test_what_is_not_known_is_on_no_chart() -> None:
    open_run = replace(QUIET[0], is_open=True)
    unweighed = _run(1, 10, wet=None)
    waits = replace(_run(2, 10), cappings_g=0, cappings_to_follow=True)
    charts = {chart.part: chart for chart in control_charts([open_run, unweighed, waits])}
    assert [row.run.code for row in charts["difference_g"].rows] == ["R1", "R2"]
    assert [row.run.code for row in charts["wet_g"].rows] == ["R2"]
    assert [row.run.code for row in charts["cappings_g"].rows] == ["R1"]
    assert charts["difference_g"].limits is None
    assert part_name("wet_g") == "left in combs"


def test_only_a_difference_is_below_nothing() -> None:
    charts = {chart.part: chart for chart in control_charts([*QUIET, _run(20, 11)])}
    for part in ("difference_g", "foam_g"):
        limits = charts[part].limits
        assert limits is not None
        wide = replace(limits, deviation=1_000.0)
        low, centre, high = limits_shown(part, wide)
        assert (low < 0) == (part == "difference_g")
        assert (centre, high) == (wide.centre, wide.high)
