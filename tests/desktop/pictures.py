"""Pictures of every page of the window on the sample season, to be looked at.

`python -m tests.desktop.pictures FOLDER [PAGE ...]` writes each page at each size, light and dark.
"""

import importlib
import os
import shutil
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Sequence
from itertools import count
from pathlib import Path
from typing import Protocol, cast

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEvent, QTimer
from PySide6.QtWidgets import QApplication
from shiboken6 import getAllValidWrappers

from honeyledger.assets import resource
from honeyledger.desktop import app as window_app
from honeyledger.desktop import style, tokens
from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.main_window import ENTRIES, MainWindow
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.visiting import visited
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from honeyledger.settings import Settings
from tests.support.sample import SAMPLE, loaded

SIZES = ((1280, 800), (1920, 1080), (1024, 700), (853, 640), (640, 400))
LONGEST_WAIT_S = 30
QUIET = 10
LONGEST_PAUSE_MS = 500


class States(Protocol):
    """What a module beside this one, named after its station, knows of its states."""

    PAGES: Sequence[str]

    def bring(self, window: MainWindow, how: str) -> None:
        """Bring one of them about, by the name behind the page's."""

    def leave(self, window: MainWindow) -> None:
        """Make it as it was."""


def _states() -> dict[str, States]:
    """The modules there are: a station with a new one is in the pictures by itself."""
    here = Path(__file__).parent
    return {
        file.stem.removeprefix("pictures_"): cast(
            States, importlib.import_module(f"tests.desktop.{file.stem}")
        )
        for file in sorted(here.glob("pictures_*.py"))
    }


STATES = _states()
STATIONS = (*window_app.STATIONS, ENTRIES)
PAGES = tuple(
    page for key in STATIONS for page in (STATES[key].PAGES if key in STATES else (key,))
)


def sample_house(folder: Path) -> House:
    """The sample season in a file, its clock standing where the season stands."""
    store = open_store(str(shutil.copy(loaded()[0], folder / SAMPLE)))
    numbers = count(1)
    return House(store, lambda: SAMPLE_NOW_MS, lambda: f"picture-{next(numbers)}")


def build(house: House, folder: Path) -> MainWindow:
    """The window on a house, with folders of its own."""
    return _alone(window_app.build_on(_desk(house, folder)))


def build_visit(house: House, folder: Path) -> MainWindow:
    """The window of an inspector's visit to a house."""
    return _alone(window_app.build_on(visited(_desk(house, folder), folder / "visit")))


def _alone(window: MainWindow) -> MainWindow:
    """It does not ask after other stations, of which there are none.

    On a busy machine it would ask again before it has come to rest.
    """
    for timer in window.desk.refresh.findChildren(QTimer):
        timer.stop()
    return window


def _desk(house: House, folder: Path) -> Desk:
    settings = Settings(station="pictures")
    desk = Desk(house, Jobs(), Refresh(), settings, resource(), station="pictures")
    desk.drafts, desk.papers = Drafts(folder / "drafts"), folder / "papers"
    return desk


def settle(app: QApplication, window: MainWindow) -> None:
    """Go on until every question is answered and every pause is over; no key comes meanwhile."""
    with window.scanner.resting():
        _settle(app, window)


def _settle(app: QApplication, window: MainWindow) -> None:
    until = time.monotonic() + LONGEST_WAIT_S
    quiet = 0
    unrest = Counter[str]()
    # What was let go of between two loops waits for one to end: in a long walk it would pile up.
    app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    # Answers lead to further questions and those to pauses: stillness is when nothing follows.
    while quiet < QUIET:
        if time.monotonic() > until:
            raise TimeoutError(f"The window did not come to rest: {unrest.most_common(9)}.")
        app.processEvents()
        is_idle = window.desk.jobs.is_idle()
        unrest.update(["turns", *([] if is_idle else ["answers awaited"])])
        quiet = quiet + 1 if is_idle else 0
        # All there is in the process is looked through for them: not while it works anyway.
        pauses = _pauses() if quiet in (1, QUIET) else []
        for pause in pauses:
            unrest[f"{pause.interval()} ms of {pause.parent()}"] += 1
            pause.setInterval(0)
            quiet = 0


def _pauses() -> list[QTimer]:
    """What waits until a person has stopped typing, and what is left for the next turn.

    Whoever keeps them: nobody types here, so that nothing has to be waited for.
    """
    return [
        timer
        for timer in getAllValidWrappers()
        if isinstance(timer, QTimer)
        and timer.isActive()
        and timer.interval() <= (LONGEST_PAUSE_MS if timer.isSingleShot() else 0)
    ]


def open_page(window: MainWindow, name: str) -> None:
    """Bring one of the pages about."""
    station, _, how = name.partition("-")
    is_new = not window.stations.is_made(station)
    window.open_station(station)
    if is_new:
        # It begins when it is shown, which would put what is brought about back to that.
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        settle(app, window)
    if station in STATES:
        STATES[station].bring(window, how)


def leave_page(window: MainWindow, name: str) -> None:
    """Make the page as it was before it was brought about."""
    station = name.partition("-")[0]
    if station in STATES:
        STATES[station].leave(window)
    # The next page is not shown with what was scanned on this one.
    for timer in window.shell.scan_box().findChildren(QTimer):
        if timer.isActive():
            timer.start(0)


def write_pictures(
    folder: Path, pages: Sequence[str] = PAGES, say: Callable[[str], object] = print
) -> None:
    """A picture of every page at every size, light and dark."""
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    style.install(app)
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as ground:
        house = sample_house(Path(ground))
        window = build(house, Path(ground))
        window.show()
        settle(app, window)
        for theme in (tokens.LIGHT, tokens.DARK):
            style.wear(app, theme, moving=False)
            for width, height in SIZES:
                window.resize(width, height)
                for page in pages:
                    open_page(window, page)
                    settle(app, window)
                    window.toast.put_away()
                    file = folder / f"{page}-{width}-{theme.name}.png"
                    (app.activeModalWidget() or window).grab().save(str(file))
                    leave_page(window, page)
                    say(file.name)
        window.close()
        house.store.close()


if __name__ == "__main__":
    if len(sys.argv) < 2 or sys.argv[1].startswith("-"):
        sys.exit(__doc__)
    write_pictures(Path(sys.argv[1]), sys.argv[2:] or PAGES, lambda _name: None)
