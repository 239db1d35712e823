"""The plan's page by keys: filled, planned at once, typed over, refused, printed, left."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.season import plan_presenter
from honeyledger.desktop.stations.season.plan_view import PlanView
from tests.desktop.season_rig import SeasonRig

Key = Qt.Key


@pytest.fixture
def season(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SeasonRig]:
    monkeypatch.setattr(plan_presenter, "SEASONS", 8)
    made = SeasonRig(qtbot, tmp_path)
    yield made
    made.close()


def _opened(season: SeasonRig, qtbot: QtBot) -> PlanView:
    season.view.chooser.chosen.emit("plan")
    plan = season.view.plan
    assert plan is not None
    _wait(qtbot, lambda: plan.presenter.made is not None and not plan.presenter.is_working)
    return plan


def _wait(qtbot: QtBot, done: Callable[[], bool]) -> None:
    qtbot.waitUntil(done, timeout=20_000)


def _type(season: SeasonRig, plan: PlanView, name: str, text: str) -> None:
    plan.form.form.take_focus(plan.form.fields[name])
    season.rig.type(text)


def test_it_is_planned_before_anything_is_typed(season: SeasonRig, qtbot: QtBot) -> None:
    plan = _opened(season, qtbot)
    assert season.view.spread.isHidden()
    assert plan.answer.page.text() == "Season plan"
    assert plan.answer.sentence.text().startswith("Ends on ")
    fields = plan.form.fields
    assert fields["colonies"].text() == "30"
    assert fields["frames_a_load"].text() == "30"
    assert (fields["colonies"].tail.unit, fields["frames_a_load"].tail.unit) == ("", "usual")
    assert plan.form.which.key() == "rest"
    assert plan.chart.chart().items
    assert QApplication.focusWidget() is plan.chart


def test_what_is_typed_is_planned_by_enter_alone(season: SeasonRig, qtbot: QtBot) -> None:
    plan = _opened(season, qtbot)
    _type(season, plan, "colonies", "100")
    assert plan.presenter.plan().colonies == 100
    before = plan.presenter.made
    plan.form.plan_it.click()
    _wait(qtbot, lambda: plan.presenter.made is not before)
    assert plan.presenter.made is not None
    assert plan.presenter.made.plan.colonies == 100
    plan.form.again.click()
    _wait(qtbot, lambda: plan.form.fields["colonies"].text() == "30")
    assert plan.presenter.typed == {}


def test_a_figure_that_is_only_usual_says_so_until_it_is_typed(
    season: SeasonRig, qtbot: QtBot
) -> None:
    plan = _opened(season, qtbot)
    _type(season, plan, "warm_hours", "36")
    assert plan.form.fields["warm_hours"].tail.unit == "h"
    _type(season, plan, "warm_hours", "24")
    assert plan.form.fields["warm_hours"].tail.unit == "h usual"


def test_what_cannot_be_is_marked_and_the_rest_is_told(season: SeasonRig, qtbot: QtBot) -> None:
    plan = _opened(season, qtbot)
    _type(season, plan, "frames_a_load", "0")
    plan.form.plan_it.click()
    _wait(qtbot, lambda: bool(plan.presenter.made and plan.presenter.made.wrong))
    assert plan.form.fields["frames_a_load"].box.refused
    assert plan.form.messages.sentence() == (
        "Frames a load: 0 is too little to plan with. Say 1 or more."
    )
    assert plan.answer.sentence.text().startswith("No end can be told")
    assert plan.pictures.key() == "parts"


def test_what_is_no_figure_is_refused_at_its_field(season: SeasonRig, qtbot: QtBot) -> None:
    plan = _opened(season, qtbot)
    _type(season, plan, "crew", "some")
    plan.form.plan_it.click()
    assert plan.form.fields["crew"].box.refused
    assert plan.form.messages.sentence() == ("some is not People: type it in digits, such as 24.")


def test_a_whole_season_instead_of_what_is_left(season: SeasonRig, qtbot: QtBot) -> None:
    plan = _opened(season, qtbot)
    plan.form.chosen.emit("whole")
    _wait(qtbot, lambda: plan.form.which.key() == "whole" and not plan.presenter.is_working)
    assert plan.form.fields["through"].text() == "0"


def test_another_picture_and_another_look(season: SeasonRig, qtbot: QtBot) -> None:
    plan = _opened(season, qtbot)
    plan.pictures.chosen.emit("more")
    assert plan.chart.chart().title == "Days sooner with one more"
    plan.chooser.chosen.emit("yield")
    assert plan.isHidden()
    assert not season.view.spread.isHidden()
    assert season.view.answer.page.text() == "Season 2027: Yards"
    season.view.chooser.chosen.emit("plan")
    assert not plan.isHidden()
    assert plan.chart.chart().title == "Days sooner with one more"


def test_what_the_keyboard_comes_to_is_seen_wherever_it_comes_from(
    season: SeasonRig, qtbot: QtBot
) -> None:
    form = _opened(season, qtbot).form
    first = form.fields["begins"].editor
    form.form.take_focus(form.count)
    season.rig.settle()
    assert first.visibleRegion().isEmpty()
    form.plan_it.setFocus(Qt.FocusReason.TabFocusReason)
    first.setFocus(Qt.FocusReason.TabFocusReason)
    season.rig.settle()
    assert first.visibleRegion().boundingRect().height() == first.height()
    assert not form.fields["begins"].label.visibleRegion().isEmpty()


def test_it_is_printed(season: SeasonRig, qtbot: QtBot) -> None:
    _opened(season, qtbot)
    season.rig.keys("Ctrl+P")
    folder = season.rig.desk.papers
    _wait(qtbot, lambda: any(folder.glob("season-plan-*.pdf")))


def test_a_thousand_seasons_tell_how_far_they_are_and_are_stopped(
    season: SeasonRig, qtbot: QtBot
) -> None:
    plan = _opened(season, qtbot)
    plan.form.count.chosen.emit("many")
    assert plan.presenter.count == 1_000
    moved: list[tuple[int, int]] = []
    plan.presenter.moved.connect(lambda done, of: moved.append((done, of)))
    plan.form.plan_it.click()
    assert plan.presenter.is_working
    assert not plan.stop_it.isHidden()
    _wait(qtbot, lambda: bool(moved))
    # A thousand of the house as it is, and 250 of each of the seven with one more.
    assert moved[0][1] == 1_000 + 7 * 250
    assert plan.slot.sentence() == f"Planning. {moved[-1][0]} of 2750 seasons are simulated."
    plan.stop_it.click()
    _wait(qtbot, lambda: not plan.presenter.is_working)
    assert plan.presenter.made is not None
    assert plan.presenter.made.stopped
    assert plan.stop_it.isHidden()
