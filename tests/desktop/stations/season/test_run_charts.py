"""Where each run's honey went, as it is drawn and said."""

from dataclasses import replace

import pytest

from honeyledger.desktop.stations.season.run_charts import (
    losses_answer,
    losses_chart,
    losses_figures,
    losses_notes,
    machines_answer,
    machines_chart,
)
from honeyledger.services.season_losses import Losses, RunLoss
from honeyledger.services.season_page import SeasonPage
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house, page_of
from tests.support.sample_page import sample_page


def _with(page: SeasonPage, **facts: int | bool | None) -> SeasonPage:
    """The page with its one run changed."""
    (run,) = page.losses.runs
    changed: RunLoss = replace(run, **facts)  # type: ignore[arg-type]
    return replace(page, losses=Losses((changed,)))


def test_a_run_by_its_parts(rig: DeskRig) -> None:
    fill_house(rig)
    page = _with(
        page_of(rig),
        cappings_g=45_000,
        wet_g=13_500,
        foam_g=4_500,
        spilled_g=0,
        difference_g=-9_000,
    )
    chart = losses_chart(page)
    (item,) = chart.items
    values = [(part.series, part.value) for part in item.parts]
    assert values == [(0, 10.0), (1, 3.0), (2, 1.0), (4, -2.0)]
    code = page.losses.runs[0].code
    assert item.cells == ("24 Jul", code, "450", "10.0", "3.0", "1.0", "−2.0")
    assert item.spoken == (
        f"{code}, 24 Jul: about 450 kg in; cappings 10.0 %, wet 3.0 %, foam 1.0 %, "
        "difference −2.0 %, −9.0 kg"
    )
    assert chart.totals == ("All closed runs", "", "450", "10.0", "3.0", "1.0", "−2.0")
    assert losses_answer(page) == (
        "One run took in ≈ 450 kg: 10.0 % is cappings, 3.0 % in wet supers; −2.0 % is weighing "
        "difference."
    )
    assert [(one.figure, one.meaning) for one in losses_figures(page)] == [
        ("−9 kg", "weighing difference"),
        ("−2.0 %", "furthest off, 24 Jul"),
    ]
    assert losses_notes(page) == []


def test_runs_of_each_machine_together(rig: DeskRig) -> None:
    fill_house(rig)
    page = _with(page_of(rig), cappings_g=45_000, wet_g=13_500, foam_g=4_500, difference_g=-9_000)
    (run,) = page.losses.runs
    line = run.line
    assert machines_answer(page) == (
        f"One line alone, {line}: −2.0 % of what went in is weighing difference."
    )
    other = replace(run, line="Old line", difference_g=27_000, wet_g=None)
    two = replace(page, losses=Losses((run, other, replace(other, difference_g=18_000))))
    assert machines_answer(two) == (
        "Furthest off is Old line: 5.0 % of what went in is weighing difference."
    )
    first, second = sorted(machines_chart(two).items, key=lambda item: item.name != line)
    assert first.cells == (line, "1", "450", "10.0", "3.0", "1.0", "−2.0")
    assert second.cells == ("Old line", "2", "900", "10.0", "0.0", "1.0", "5.0")
    assert second.spoken == (
        "Old line, 2 runs: cappings 10.0 %, wet 0.0 %, foam 1.0 %, difference 5.0 %"
    )
    none = replace(page, losses=Losses(()))
    assert machines_chart(none).empty == losses_chart(none).empty
    assert machines_answer(none) == losses_answer(none)


def test_what_is_not_told_apart_is_said(rig: DeskRig) -> None:
    fill_house(rig)
    page = _with(page_of(rig), wet_g=None, spilled_g=2_000)
    (item,) = losses_chart(page).items
    assert "wet not weighed" in item.spoken
    assert "spilled or dried 0.4 %" in item.spoken
    assert [note.sentence for note in losses_notes(page)] == [
        "Of 1 run the wet supers were not all weighed: that is in the difference."
    ]
    still_open = _with(page, is_open=True)
    assert losses_chart(still_open).items == ()
    assert losses_notes(still_open)[0].sentence == "An open run is shown when it is closed."


def test_parts_of_the_samples_runs_add_up_to_what_did_not_come_out() -> None:
    page = sample_page()
    chart = losses_chart(page)
    assert len(chart.items) == 25
    for item, run in zip(chart.items, page.losses.closed, strict=True):
        told = sum(part.value for part in item.parts)
        parts = run.cappings_g + (run.wet_g or 0) + run.foam_g + run.spilled_g + run.dried_g
        missing = (parts + run.difference_g) * 100 / run.in_g
        assert told == pytest.approx(missing, abs=0.05)


def test_no_run_yet(rig: DeskRig) -> None:
    page = page_of(rig)
    assert losses_answer(page) == "No run was closed in 2026."
    assert losses_chart(page).totals == ()
    assert losses_figures(page) == []
