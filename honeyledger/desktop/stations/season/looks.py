"""What the season's page can show, in order: each with its chart, its sentence and its figures."""

from collections.abc import Callable
from dataclasses import dataclass

from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import Chart
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season import (
    control_charts,
    drum_charts,
    group_charts,
    line_charts,
    pace_charts,
    pull_charts,
    reading_charts,
    run_charts,
    today_charts,
    todo_charts,
    yield_charts,
)
from honeyledger.desktop.stations.season.words import tr
from honeyledger.services.season_page import SeasonPage

PULLING, TO_DO = "pulling", "todo"


def _no_notes(_page: SeasonPage) -> list[Message]:
    return []


@dataclass(frozen=True, slots=True)
class Look:
    """One thing to look at.

    Args:
        answer: the sentence that opens the page.
        notes: what to know of the figures before one believes them.
        group: the title of several looks that are chosen together; "" for one by itself.
    """

    key: str
    title: str
    chart: Callable[[SeasonPage], Chart]
    answer: Callable[[SeasonPage], str]
    figures: Callable[[SeasonPage], list[KeyFigure]]
    notes: Callable[[SeasonPage], list[Message]] = _no_notes
    group: str = ""


def looks() -> tuple[Look, ...]:
    """All of them, in the language in use."""
    return (*_daily(), *_yields(), *_read(), *_lost(), *_next())


def _daily() -> tuple[Look, ...]:
    """What one looks at every day."""
    pace, today, todo = pace_charts, today_charts, todo_charts
    return (
        Look(
            "pace",
            tr("Pace"),
            pace.pace_chart,
            pace.pace_answer,
            pace.pace_figures,
            pace.pace_notes,
        ),
        Look(
            "today",
            tr("Today"),
            today.today_chart,
            today.today_answer,
            today.today_figures,
            today.today_notes,
        ),
        Look(TO_DO, tr("To do"), todo.todo_chart, todo.todo_answer, todo.todo_figures),
    )


def _yields() -> tuple[Look, ...]:
    """What the bees gave, and whose stacks are to be looked at again."""
    yields, by, title = yield_charts, group_charts, tr("Yields")
    return (
        Look(
            "yield",
            tr("Yards"),
            yields.yield_chart,
            yields.yield_answer,
            yields.yield_figures,
            group=title,
        ),
        Look(
            "crews",
            tr("Crews"),
            by.crews_chart,
            by.crews_answer,
            by.crews_figures,
            by.crews_notes,
            title,
        ),
        Look(
            "forage",
            tr("Forage"),
            by.forage_chart,
            by.forage_answer,
            by.forage_figures,
            group=title,
        ),
        Look(
            "weeks",
            tr("Weeks"),
            yields.weeks_chart,
            yields.weeks_answer,
            yields.weeks_figures,
            yields.weeks_notes,
            title,
        ),
        Look(
            "seasons",
            tr("Seasons"),
            by.seasons_chart,
            by.seasons_answer,
            by.seasons_figures,
            group=title,
        ),
        Look(
            "slips",
            tr("Slips"),
            by.slips_chart,
            by.slips_answer,
            by.slips_figures,
            by.slips_notes,
            title,
        ),
    )


def _read() -> tuple[Look, ...]:
    """What was read of the honey."""
    readings = reading_charts
    return (
        Look(
            "moisture",
            tr("Moisture"),
            readings.moisture_chart,
            readings.moisture_answer,
            readings.moisture_figures,
            readings.moisture_notes,
        ),
        Look(
            "colour",
            tr("Colour"),
            readings.colour_chart,
            readings.colour_answer,
            readings.colour_figures,
            readings.colour_notes,
        ),
    )


def _lost() -> tuple[Look, ...]:
    """Where honey went, and whether that is usual."""
    runs, control, title = run_charts, control_charts, tr("Losses")
    return (
        Look(
            "losses",
            tr("Runs"),
            runs.losses_chart,
            runs.losses_answer,
            runs.losses_figures,
            runs.losses_notes,
            title,
        ),
        Look(
            "machines",
            tr("Machines"),
            runs.machines_chart,
            runs.machines_answer,
            runs.losses_figures,
            runs.losses_notes,
            title,
        ),
        Look(
            "control",
            tr("Limits"),
            control.control_chart,
            control.control_answer,
            control.control_figures,
            control.control_notes,
            title,
        ),
    )


def _next() -> tuple[Look, ...]:
    """What stands in drums, what is pulled next, and how the line worked."""
    drums, pulls, line = drum_charts, pull_charts, line_charts
    return (
        Look(
            "drums",
            tr("Drums"),
            drums.drums_chart,
            drums.drums_answer,
            drums.drums_figures,
            drums.drums_notes,
        ),
        Look(
            PULLING,
            tr("Pulling"),
            pulls.pulling_chart,
            pulls.pulling_answer,
            pulls.pulling_figures,
            pulls.pulling_notes,
        ),
        Look(
            "line",
            tr("Line"),
            line.line_chart,
            line.line_answer,
            line.line_figures,
            line.line_notes,
        ),
    )
