"""No page warns, cuts a word, covers one with another or has a target below 40 px.

All of it can be read, and Tab comes to all of it in order.
"""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import qWarning
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import style
from honeyledger.desktop.app import STATIONS
from tests.desktop import first_pictures, pictures, tour
from tests.desktop.tour import EMPTY, NARROWEST, VISIT, VISITED, Stop, Tour
from tests.desktop.tour_contrast import unreadable
from tests.desktop.tour_round import wrong_with_round, wrong_with_work


@pytest.fixture(scope="module")
def led(tmp_path_factory: pytest.TempPathFactory, qapp: QApplication) -> Iterator[Tour]:
    """The windows of a tour."""
    style.install(qapp)
    made = Tour(qapp, tmp_path_factory.mktemp("tour"))
    yield made
    made.close()


def test_every_station_is_in_the_tour_in_its_usual_state_and_empty() -> None:
    pages = {stop.page for stop in tour.all_stops()}
    assert {*STATIONS, *(f"{key}-{EMPTY}" for key in STATIONS)} <= pages
    assert set(pictures.STATES) <= set(pictures.STATIONS), "no states without a station"
    for key, states in pictures.STATES.items():
        assert all(page.partition("-")[0] == key for page in states.PAGES)


@pytest.mark.parametrize("key", pictures.STATIONS)
def test_nothing_is_wrong_with_a_station(led: Tour, key: str, tmp_path: Path) -> None:
    """Gone to once: its picture, the round of Tab, and what it paints in three themes."""
    stop = Stop(key)
    looks = (wrong_with_work, partial(unreadable, led))
    assert led.faults(stop, tmp_path / stop.name, looks) == []
    assert (tmp_path / stop.name).stat().st_size > 10_000


@pytest.mark.parametrize("key", pictures.STATIONS)
def test_nothing_is_wrong_behind_any_tab_of_the_narrowest_window(led: Tour, key: str) -> None:
    assert led.faults(Stop(key, NARROWEST), looks=(led.behind_tabs, wrong_with_round)) == []


# Last: each of these windows would be dressed in each theme too.
@pytest.mark.parametrize("page", [*first_pictures.PAGES, *(f"{key}-{VISIT}" for key in VISITED)])
def test_nothing_is_wrong_at_the_first_start_and_for_a_visitor(
    led: Tour, page: str, tmp_path: Path
) -> None:
    stop = Stop(page)
    assert led.faults(stop, tmp_path / stop.name) == []
    assert (tmp_path / stop.name).stat().st_size > 10_000


@pytest.mark.full
@pytest.mark.parametrize("stop", tour.all_stops(), ids=lambda stop: stop.name)
def test_nothing_is_wrong_with_any_state_at_any_size_in_any_theme(led: Tour, stop: Stop) -> None:
    assert led.faults(stop) == []


@pytest.mark.qt_no_exception_capture
@pytest.mark.qt_log_ignore("a warning")
def test_a_warning_of_qts_is_a_fault(led: Tour, monkeypatch: pytest.MonkeyPatch) -> None:
    def warn(_window: object, _name: str) -> None:
        qWarning("a warning")

    monkeypatch.setattr(pictures, "leave_page", warn)
    assert led.faults(Stop("keys")) == ["Qt says: a warning"]


def test_a_page_that_is_not_there_is_said_with_those_that_are() -> None:
    with pytest.raises(SystemExit, match=r"^There is no page attic\. The pages: first_run-size, "):
        tour.all_stops(["attic"])


def test_the_pictures_asked_for_are_written_and_counted(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert tour.main([str(tmp_path / "pictures"), "keys-empty", "--usual"]) == 0
    assert [one.name for one in (tmp_path / "pictures").iterdir()] == ["keys-empty-1280-light.png"]
    assert capsys.readouterr().out.splitlines()[-1] == "1 pictures, 0 faults"


# Where the layout changes: at 1600, at 1200, at 1000 and at 900, and one less; and a window of
# 1280 by 800 at 125, 150 and 175 %.
SWITCHES = tuple(
    (width, high)
    for least, high in ((1600, 900), (1200, 750), (1000, 640), (900, 600))
    for width in (least, least - 1)
)
SCALED = ((1024, 640), (853, 533), (731, 457))


@pytest.mark.full
@pytest.mark.parametrize("size", [*SWITCHES, *SCALED], ids=str)
@pytest.mark.parametrize("page", ["dock", "trace", "season"])
def test_nothing_is_wrong_where_the_layout_changes(
    led: Tour, page: str, size: tuple[int, int]
) -> None:
    assert led.faults(Stop(page, size)) == []


@pytest.mark.full
@pytest.mark.parametrize("key", pictures.STATIONS)
def test_nothing_is_wrong_behind_any_tab_at_175_percent(led: Tour, key: str) -> None:
    assert led.faults(Stop(key, SCALED[-1]), looks=[led.behind_tabs]) == []


@pytest.mark.full
@pytest.mark.parametrize("size", [(1199, 750), (999, 640), (900, 600), (731, 457)], ids=str)
@pytest.mark.parametrize("page", pictures.PAGES)
def test_nothing_is_wrong_with_any_state_where_the_layout_changes(
    led: Tour, page: str, size: tuple[int, int]
) -> None:
    assert led.faults(Stop(page, size)) == []
