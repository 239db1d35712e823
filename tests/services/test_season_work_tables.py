"""The line's days and stops as tables, on the sample season."""

import pytest

from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_work import SeasonWork
from honeyledger.services.season_work_tables import (
    NO_WORK,
    days_table,
    span,
    work_report,
    work_says,
)
from tests.support.sample_page import sample_page


@pytest.fixture(scope="module")
def page() -> SeasonPage:
    return sample_page()


def test_every_day_and_every_stop_has_its_row(page: SeasonPage) -> None:
    report = work_report(page)
    days, stops = report.tables
    assert len(days.rows) == 26
    assert days.rows[0][:5] == ("10 Jul 2026", "124", "23.8", "253", "7.1")
    assert days.rows[0][6:] == ("14 min", "", "10 h 24 min")
    assert days.rows[-1][0] == "25 Sep 2026 so far"
    assert len(stops.rows) == 12
    assert stops.rows[0] == ("10 Jul 2026 09:58", "14 min", "uncapping", "chain slack")
    for table in report.tables:
        assert all(len(row) == len(table.columns) for row in table.rows)
    assert report.says[0].startswith("On the middle day 235 frames an hour; a machine")
    assert report.says[1] == "Stood for no power: once, 50 min."


def test_a_season_without_work_says_so() -> None:
    assert days_table((), "kg").none == NO_WORK
    assert work_says(SeasonWork((), ())) == ()


@pytest.mark.parametrize(
    ("minutes", "words"), [(0, ""), (59, "59 min"), (60, "1 h 00 min"), (125, "2 h 05 min")]
)
def test_minutes_in_words(minutes: int, words: str) -> None:
    assert span(minutes) == words
