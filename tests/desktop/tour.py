"""A walk through the window on the sample season: a picture of every state, and what is wrong.

`python3 packaging/tour.py FOLDER` comes here. A station is in the tour because it is a station;
its states are what the module of pictures named after it brings about. `empty` is the page on a
house that has just been made, `visit` what an inspector sees of it.
"""

import argparse
import os
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from typing import TypeAlias

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QMessageLogContext, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget
from shiboken6 import delete

from honeyledger.desktop import language, style, tokens
from honeyledger.desktop.main_window import ENTRIES, MainWindow
from honeyledger.desktop.tokens import Theme
from honeyledger.desktop.widgets.spread import Spread
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from honeyledger.services.setup import new_house
from tests.desktop import first_pictures, pictures, tour_papers
from tests.desktop.tour_checks import faults_of

USUAL = (1280, 800)
# A window of 1280 by 800 at 200 %.
NARROWEST = (640, 400)
SIZES = pictures.SIZES
THEMES = (tokens.LIGHT, tokens.DARK)
EMPTY, VISIT, SAMPLE = "empty", "visit", "sample"
# Where customers and coordinates stand else.
VISITED = ("yards", "dispatch", "trace", "recalls", ENTRIES)
# Said by the offscreen platform alone, about what no screen lacks.
_NO_SCREEN = "This plugin does not support"


@dataclass(frozen=True, slots=True)
class Stop:
    """One page in one state, at one size, in one theme."""

    page: str
    size: tuple[int, int] = USUAL
    theme: Theme = tokens.LIGHT

    @property
    def is_empty(self) -> bool:
        """Whether it is shown on a house that has nothing yet."""
        return self.page.endswith(f"-{EMPTY}")

    @property
    def window(self) -> str:
        """Whose window it is in: that of a new house, of a visit, or of the sample season."""
        how = self.page.rpartition("-")[2]
        return how if how in (EMPTY, VISIT) else SAMPLE

    @property
    def name(self) -> str:
        """What its picture is called."""
        return f"{self.page}-{self.size[0]}-{self.theme.name}.png"


def all_stops(pages: Sequence[str] = ()) -> list[Stop]:
    """Every state of every station, at every size, light and dark; or of these pages alone."""
    empty = [f"{key}-{EMPTY}" for key in pictures.STATIONS]
    visits = [f"{key}-{VISIT}" for key in VISITED]
    every = [*first_pictures.PAGES, *pictures.PAGES, *empty, *visits]
    unknown = [page for page in pages if page not in every]
    if unknown:
        sys.exit(f"There is no page {unknown[0]}. The pages: {', '.join(every)}.")
    return [
        Stop(page, size, theme) for theme in THEMES for size in SIZES for page in (pages or every)
    ]


def scaled_stops(scale: float, pages: Sequence[str] = ()) -> list[Stop]:
    """Every state as a screen of 1280 by 800 dots shows it, where Qt draws larger by this."""
    wide, high = (int(dots / scale) for dots in USUAL)
    return [Stop(stop.page, (wide, high)) for stop in all_stops(pages) if is_usual(stop)]


def is_usual(stop: Stop) -> bool:
    """Whether it is at the usual size, in light."""
    return stop.size == USUAL and stop.theme is tokens.LIGHT


Look: TypeAlias = Callable[[QWidget], list[str]]
"""Says what else is wrong with a window."""

KEPT = "kept for several tests"
"""The property of a window that a test leaves open on purpose."""


class Tour:
    """Windows on the sample season, on a new house and of a visit, led from stop to stop."""

    def __init__(self, app: QApplication, ground: Path) -> None:
        self.app, self._ground = app, ground
        self._windows: dict[str, MainWindow] = {}
        self._houses: list[House] = []

    def window(self, stop: Stop) -> MainWindow:
        """The window that has what the stop shows, opened when first needed."""
        made = self._windows.get(stop.window)
        if made is None:
            folder = self._ground / stop.window
            folder.mkdir()
            house = empty_house(folder) if stop.is_empty else pictures.sample_house(folder)
            self._houses.append(house)
            build = pictures.build_visit if stop.window == VISIT else pictures.build
            made = self._windows[stop.window] = build(house, folder)
            made.setProperty(KEPT, True)
            made.show()
            pictures.settle(self.app, made)
        return made

    @contextmanager
    def at(self, stop: Stop) -> Iterator[QWidget]:
        """The window as the stop has it, as long as one looks."""
        style.wear(self.app, stop.theme, moving=False)
        if stop.page in first_pictures.PAGES:
            with first_pictures.at(self.app, self._ground, stop.page, stop.size) as first:
                yield first
            return
        window = self.window(stop)
        window.activateWindow()
        window.resize(*stop.size)
        if stop.window == SAMPLE:
            pictures.open_page(window, stop.page)
        else:
            window.open_station(stop.page.removesuffix(f"-{stop.window}"))
        pictures.settle(self.app, window)
        window.toast.put_away()
        # What asks in front of the window is what is looked at.
        yield self.app.activeModalWidget() or window
        if stop.window == SAMPLE:
            pictures.leave_page(window, stop.page)

    def faults(
        self, stop: Stop, picture: Path | None = None, looks: Sequence[Look] = ()
    ) -> list[str]:
        """What is wrong at a stop, by these looks too; its picture is written if wanted."""
        with _heard() as said, self.at(stop) as window:
            found = faults_of(window)
            is_main = isinstance(window, QMainWindow)
            if is_main and (window.width(), window.height()) != stop.size:
                found.append(f"the window grew to {window.width()} by {window.height()}")
            if picture is not None:
                window.grab().save(str(picture))
            for look in looks:
                found += look(window)
        return [*(f"Qt says: {one}" for one in said), *found]

    def behind_tabs(self, window: QWidget) -> list[str]:
        """What is wrong with each panel of a page whose panels take turns."""
        found: list[str] = []
        for spread in window.findChildren(Spread):
            if not (spread.isVisible() and spread.is_tabbed()):
                continue
            # The first one last, as it was.
            for number in (*spread.offered()[1:], *spread.offered()[:1]):
                spread.show_part(number)
                self.settle()
                found += [f"tab {number}: {fault}" for fault in faults_of(window)]
        return found

    def settle(self) -> None:
        """Go on until the windows have come to rest."""
        for window in self._windows.values():
            pictures.settle(self.app, window)

    def close(self) -> None:
        """Close the windows and let go of the houses."""
        for window in self._windows.values():
            # One that was never shown is not told that it closes.
            window.scanner.stop()
            window.close()
            # Closed only, it would go on asking every minute and dress for every theme.
            delete(window)
        for house in self._houses:
            house.store.close()


def empty_house(folder: Path) -> House:
    """A house that has its record and its boxes, and nothing else."""
    store = open_store(str(folder / "new.honeyledger"), create=True, new_id=lambda: "ledger-2")
    numbers = count(1)
    house = House(store, lambda: SAMPLE_NOW_MS, lambda: f"new-{next(numbers)}")
    house.record_all(new_house("New House", "UTC"))
    return house


@contextmanager
def _heard() -> Iterator[list[str]]:
    """Every warning of Qt's meanwhile."""
    said: list[str] = []

    def hear(_kind: QtMsgType, _context: QMessageLogContext, words: str) -> None:
        if not words.startswith(_NO_SCREEN):
            said.append(words)

    before = qInstallMessageHandler(hear)
    try:
        yield said
    finally:
        qInstallMessageHandler(before)


def walk(
    folder: Path,
    stops: Sequence[Stop],
    say: Callable[[str], object],
    spoken: str = language.ENGLISH,
) -> int:
    """Write the picture of every stop, and say what is wrong there; how many faults there are."""
    running = QApplication.instance()
    app = running if isinstance(running, QApplication) else QApplication([])
    style.install(app)
    language.wear(app, spoken)
    folder.mkdir(parents=True, exist_ok=True)
    faults = 0
    with tempfile.TemporaryDirectory(prefix="honey-") as ground:
        tour = Tour(app, Path(ground))
        for stop in stops:
            found = tour.faults(stop, folder / stop.name)
            faults += len(found)
            say("\n  ".join([stop.name, *found]))
        tour.close()
    return faults


def write_papers(folder: Path, wanted: Sequence[str]) -> int:
    """Write labels and papers as pictures, and say what is wrong; how many faults there are."""
    folder.mkdir(parents=True, exist_ok=True)
    faults = 0
    with tempfile.TemporaryDirectory(prefix="honey-") as ground:
        house = pictures.sample_house(Path(ground))
        for name, found in tour_papers.write(house, folder, wanted):
            faults += len(found)
            print("\n  ".join([name, *found]), flush=True)  # noqa: T201
        house.store.close()
    return faults


def main(arguments: Sequence[str]) -> int:
    """Write the pictures; 1 where anything is wrong with what they show."""
    asking = argparse.ArgumentParser(prog="tour.py", description=__doc__)
    asking.add_argument("folder", type=Path, help="where the pictures are written")
    asking.add_argument("pages", nargs="*", help="these alone: dock-refused, paper-run-sheet")
    asking.add_argument("--usual", action="store_true", help="at 1280 by 800 in light alone")
    asking.add_argument("--language", default=language.ENGLISH, help="such as es")
    asking.add_argument("--scale", type=float, help="such as 2, a screen of 1280 by 800 at 200 %%")
    asked = asking.parse_args(arguments)
    papers = [page for page in asked.pages if page.startswith(tour_papers.PAPER)]
    pages = [page for page in asked.pages if page not in papers]
    if papers and not pages:
        return 1 if write_papers(asked.folder, papers) else 0
    stops = [one for one in all_stops(pages) if is_usual(one) or not asked.usual]
    if asked.scale:
        # Qt reads it once, as the application is made.
        os.environ["QT_SCALE_FACTOR"] = str(asked.scale)
        stops = scaled_stops(asked.scale, pages)
    faults = walk(
        asked.folder,
        stops,
        lambda words: print(words, flush=True),  # noqa: T201
        asked.language,
    )
    print(f"{len(stops)} pictures, {faults} faults")  # noqa: T201
    # A paper is as large on every screen.
    if papers or (not pages and not asked.scale):
        faults += write_papers(asked.folder, papers)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
