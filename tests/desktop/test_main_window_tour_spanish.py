"""In Spanish, a quarter longer, no page warns, cuts a word or covers one with another."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import language, style
from tests.desktop import first_pictures, pictures
from tests.desktop.tour import NARROWEST, Stop, Tour
from tests.support.tiers import first_plain


@pytest.fixture(scope="module")
def led(tmp_path_factory: pytest.TempPathFactory, qapp: QApplication) -> Iterator[Tour]:
    """The window of a tour, begun in Spanish."""
    style.install(qapp)
    language.wear(qapp, "es")
    made = Tour(qapp, tmp_path_factory.mktemp("tour"))
    yield made
    made.close()
    language.wear(qapp, language.ENGLISH)


@pytest.fixture(autouse=True)
def spanish(light: QApplication) -> None:
    """After whatever the test before put on."""
    language.wear(light, "es")


# Where the longest words and the most of them are; in the plain run these, in the long suites all.
CROWDED = ("first_run-house", "dock", "extraction", "season", "setup")
OTHERS = [page for page in (*first_pictures.PAGES, *pictures.STATIONS) if page not in CROWDED]


@pytest.mark.parametrize("page", first_plain((*CROWDED, *OTHERS), len(CROWDED)))
def test_nothing_is_wrong_with_a_station_in_spanish(led: Tour, page: str) -> None:
    assert led.faults(Stop(page)) == []


@pytest.mark.full
@pytest.mark.parametrize("key", pictures.STATIONS)
def test_nothing_is_wrong_behind_any_tab_of_the_narrowest_window(led: Tour, key: str) -> None:
    assert led.faults(Stop(key, NARROWEST), looks=[led.behind_tabs]) == []


@pytest.mark.full
@pytest.mark.parametrize("page", pictures.PAGES)
def test_nothing_is_wrong_with_any_state_in_spanish(led: Tour, page: str) -> None:
    assert led.faults(Stop(page)) == []
