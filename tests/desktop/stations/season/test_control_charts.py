"""Losses against their limits as they are drawn and said, on the sample season."""

from dataclasses import replace

import pytest

from honeyledger.desktop.stations.season.control_charts import (
    control_answer,
    control_chart,
    control_figures,
    control_notes,
)
from honeyledger.services.season_page import SeasonPage
from tests.support.sample_page import sample_page


@pytest.fixture(scope="module")
def sample() -> SeasonPage:
    return sample_page()


def test_each_part_of_each_run_with_the_limits_at_three(sample: SeasonPage) -> None:
    chart = control_chart(sample)
    assert [level.value for level in chart.levels] == [3.0, 0.0, -3.0]
    out = [item for item in chart.items if abs(item.parts[0].value) > 3]
    assert [item.cells[:2] for item in out] == [
        ("R26-0012-R", "left in combs"),
        ("R26-0013-P", "left in combs"),
        ("R26-0021-P", "cappings"),
        ("R26-0023-L", "left in combs"),
    ]
    assert all(item.is_open for item in out)
    assert out[0].spoken == (
        "R26-0012-R on Line A, 31 Jul: left in combs 1.7 %, usual 3.2 %. Wet supers weigh little: "
        "look at their scale, and count the empties."
    )
    assert {item.opens for item in chart.items} == {run.code for run in sample.losses.closed}


def test_the_last_one_is_said_and_where_to_look(sample: SeasonPage) -> None:
    assert control_answer(sample) == (
        "Last out of the usual, 16 Sep: left in combs of R26-0023-L, 4.2 % where 3.2 % is usual."
    )
    warned, limits = control_notes(sample)
    assert warned.sentence.startswith("R26-0023-L More stays in the combs: look at spin time")
    assert "NIST/SEMATECH" in limits.sentence
    assert [(one.figure, one.meaning) for one in control_figures(sample)] == [
        ("4", "runs out of the usual"),
        ("1.27 %", "wax, usual 1–2 %"),
    ]


def test_scrapped_comb_is_told_in_honey(sample: SeasonPage) -> None:
    scrapped = replace(sample, wax=replace(sample.wax, frames=20))
    assert control_notes(scrapped)[-1].sentence == (
        "20 frames of comb scrapped: bees use 14 to 20 kg of honey to build that again."
    )


def test_few_runs_and_quiet_ones(page: SeasonPage, sample: SeasonPage) -> None:
    few = "Limits take eight closed runs of a line. There are not so many yet."
    assert control_answer(page) == few
    assert (control_chart(page).items, control_chart(page).empty) == (
        (),
        "Limits take eight closed runs of a line; closed so far: 1. Runs are closed on the floor "
        "(Ctrl+4).",
    )
    quiet = [
        replace(chart, rows=tuple(row for row in chart.rows if row.alarm is None))
        for chart in sample.charts
    ]
    assert control_answer(replace(sample, charts=tuple(quiet))) == "No run is out of the usual."
