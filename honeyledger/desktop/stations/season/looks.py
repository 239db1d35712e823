"""What the season's page can show, in order: each with its chart, its sentence and its figures."""

from collections.abc import Callable
from dataclasses import dataclass

from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import Chart
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season import (
    drum_charts,
    pace_charts,
    reading_charts,
    run_charts,
    today_charts,
    yield_charts,
)
from honeyledger.desktop.stations.season.words import tr
from honeyledger.services.season_page import SeasonPage


def _no_notes(_page: SeasonPage) -> list[Message]:
    return []


@dataclass(frozen=True, slots=True)
class Look:
    """One thing to look at.

    Args:
        answer: the sentence that opens the page.
        notes: what to know of the figures before one believes them.
    """

    key: str
    title: str
    chart: Callable[[SeasonPage], Chart]
    answer: Callable[[SeasonPage], str]
    figures: Callable[[SeasonPage], list[KeyFigure]]
    notes: Callable[[SeasonPage], list[Message]] = _no_notes


def looks() -> tuple[Look, ...]:
    """All of them, in the language in use."""
    yields, readings, runs = yield_charts, reading_charts, run_charts
    pace, today, drums = pace_charts, today_charts, drum_charts
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
        Look(
            "yield",
            tr("Yards"),
            yields.yield_chart,
            yields.yield_answer,
            yields.yield_figures,
        ),
        Look(
            "weeks",
            tr("Weeks"),
            yields.weeks_chart,
            yields.weeks_answer,
            yields.weeks_figures,
        ),
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
        Look(
            "losses",
            tr("Losses"),
            runs.losses_chart,
            runs.losses_answer,
            runs.losses_figures,
            runs.losses_notes,
        ),
        Look(
            "drums",
            tr("Drums"),
            drums.drums_chart,
            drums.drums_answer,
            drums.drums_figures,
            drums.drums_notes,
        ),
    )
