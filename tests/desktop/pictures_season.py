"""The season in the states that are worth a picture, on the sample season."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.season import plan_presenter
from honeyledger.desktop.stations.season.plan_presenter import PlanPresenter
from honeyledger.desktop.stations.season.view import SeasonView
from honeyledger.services.season_page import SeasonPage
from tests.desktop.waiting import wait_for_page, wait_until

plan_presenter.SEASONS = 12  # a picture needs no finer band

PAGES = (
    *("season", "season-today", "season-line", "season-yield", "season-weeks", "season-moisture"),
    *("season-colour", "season-losses", "season-drums", "season-figures", "season-refused"),
    *("season-crews", "season-forage", "season-seasons", "season-slips", "season-control"),
    "season-machines",
    *("season-pulling", "season-todo"),
    *("season-plan", "season-plan-parts", "season-plan-more", "season-plan-wrong"),
    "season-plan-finer",
)


def _view(window: MainWindow) -> SeasonView:
    found = window.stations["season"]
    assert isinstance(found, SeasonView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    if how.startswith("plan"):
        _bring_plan(view, how)
        return
    if how == "figures":
        view.presenter.choose("losses")
        view.spread.show_part(1)
    elif how == "refused":
        view.presenter.season = 1999
        view.presenter.ask()
    elif how:
        view.presenter.choose(how)
    if how in ("pulling", "todo"):
        wait_until(lambda: _has_sheet(view.presenter.page), view.presenter, window.desk.jobs)
    items = view.chart.chart().items
    if how in ("yield", "moisture", "losses", "drums"):
        view.chart.select(items[min(3, len(items) - 1)].key)


def _has_sheet(page: SeasonPage | None) -> bool:
    return page is not None and (page.pulling, page.today_sheet) != (None, None)


def _is_planned(presenter: PlanPresenter) -> bool:
    made = presenter.made
    return made is not None and not presenter.is_working and not made.wrong


def _bring_plan(view: SeasonView, how: str) -> None:
    view.chooser.chosen.emit("plan")
    plan = view.plan
    assert plan is not None
    if plan.presenter.typed:
        plan.form.again.click()
    wait_until(lambda: _is_planned(plan.presenter), plan.presenter)
    if how == "plan-wrong":
        plan.form.fields["frames_a_load"].set_text("0")
        plan.presenter.type("frames_a_load", "0")
        plan.form.plan_it.click()
        wait_until(lambda: not plan.presenter.is_working, plan.presenter)
        return
    if how == "plan-finer":
        plan.spread.show_part(1)
        plan.form.form.take_focus(plan.form.count)
        return
    plan.pictures.set_key({"plan-parts": "parts", "plan-more": "more"}.get(how, "by day"))
    plan.pictures.chosen.emit(plan.pictures.key())
    if how == "plan":
        items = plan.chart.chart().items
        plan.chart.select(items[len(items) // 2].key)


def _leave_plan(view: SeasonView) -> None:
    plan = view.plan
    assert plan is not None
    if plan.presenter.typed:
        plan.form.again.click()
    plan.spread.show_part(0)
    plan.left.emit("pace")


def leave(window: MainWindow) -> None:
    """Show the chart of the pace again, with nothing in hand."""
    view = _view(window)
    if view.plan is not None and not view.plan.isHidden():
        _leave_plan(view)
    if view.presenter.season:
        view.presenter.season = 0
        view.presenter.ask()
    view.presenter.choose("pace")
    view.spread.show_part(0)
    view.chart.select("")
    view.table.select("")
