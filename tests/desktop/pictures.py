"""Pictures of every page of the window on the sample season, to be looked at.

`python -m tests.desktop.pictures FOLDER [PAGE ...]` writes each page at each size, light and dark.
"""

import os
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from itertools import count
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtWidgets import QApplication

from honeyledger.assets import resource
from honeyledger.desktop import app as window_app
from honeyledger.desktop import style, tokens
from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.main_window import ENTRIES, MainWindow
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.stations.dock.typed import LineTyped, Typed
from honeyledger.desktop.stations.dock.view import DockView
from honeyledger.exchange.season import SAMPLE_NOW_MS, load_season
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from honeyledger.settings import Settings
from tests.desktop import pictures_bottling, pictures_dispatch, pictures_entries

SIZES = ((1280, 800), (1920, 1080), (1024, 700), (853, 640), (640, 400))
PAGES = (
    *("dock", "dock-typed", "dock-refused", "dock-card", "extraction", "setup", "keys"),
    *("trace", "trace-forward", "yards", "hot_room", "drums", "season"),
    *(*pictures_bottling.PAGES, *pictures_dispatch.PAGES, *pictures_entries.PAGES),
)
LONGEST_WAIT_S = 30
A_YARD = "Y26-0001-P"


def sample_house(folder: Path) -> House:
    """The sample season in a file, its clock standing where the season stands."""
    store = open_store(str(folder / "sample.honeyledger"), create=True, new_id=lambda: "ledger-1")
    load_season(store, resource("sample"))
    numbers = count(1)
    return House(store, lambda: SAMPLE_NOW_MS, lambda: f"picture-{next(numbers)}")


def build(house: House, folder: Path) -> MainWindow:
    """The window on a house, with folders of its own."""
    settings = Settings(station="pictures")
    desk = Desk(house, Jobs(), Refresh(), settings, resource(), station="pictures")
    desk.drafts, desk.papers = Drafts(folder / "drafts"), folder / "papers"
    return window_app.build_on(desk)


def settle(app: QApplication, window: MainWindow) -> None:
    """Go on until every question is answered and every pause is over."""
    until = time.monotonic() + LONGEST_WAIT_S
    quiet = 0
    while quiet < 3:
        if time.monotonic() > until:
            raise TimeoutError("The window did not come to rest.")
        waited = time.monotonic() + 0.12
        while time.monotonic() < waited:
            app.processEvents()
        quiet = quiet + 1 if window.desk.jobs.is_idle() else 0


def _dock(window: MainWindow) -> DockView:
    dock = window.stations["dock"]
    assert isinstance(dock, DockView)
    return dock


def _type(window: MainWindow) -> None:
    """A pallet half way through, wet and from two yards."""
    dock = _dock(window)
    page = dock.presenter.page
    assert page is not None
    first, second = page.yards[3], page.yards[8]
    line = LineTyped(second.code, "40", "25 Sep 2026", "North truck", "36", "medium")
    kept = LineTyped(first.code, "", "25 Sep 2026", "North truck", "12", "medium")
    dock.presenter.fill(Typed(line, (kept,), "1012,5", "green", "18.4"))
    dock.form.go_to_supers()


def open_page(window: MainWindow, name: str, code: str) -> None:
    """Bring one of the pages about."""
    station, _, how = name.partition("-")
    window.open_station(station)
    if station == "bottling":
        pictures_bottling.bring(window, how)
    elif station == ENTRIES:
        pictures_entries.bring(window, how)
    elif station == "dispatch":
        pictures_dispatch.bring(window, how)
    elif how == "typed":
        _type(window)
    elif how == "refused":
        _dock(window).form.receive.click()
    elif how == "card":
        window.open_card(code)
    elif station == "trace":
        window.stations["trace"].take_code(A_YARD if how else code)


def _leave(window: MainWindow, name: str) -> None:
    if name.startswith("bottling-"):
        pictures_bottling.leave(window)
    elif name.startswith("entries-"):
        pictures_entries.leave(window)
    elif name.startswith("dispatch-"):
        pictures_dispatch.leave(window)
    elif name == "dock-card":
        window.close_card()
    elif name in ("dock-typed", "dock-refused"):
        _dock(window).handle("clear")


def a_drum(house: House) -> str:
    """A drum with many yards behind it."""
    rows = house.ask(lambda view: view.on_hand(["drum"]))
    return rows[len(rows) // 2].lot.code


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
        code = a_drum(house)
        window = build(house, Path(ground))
        window.show()
        settle(app, window)
        for theme in (tokens.LIGHT, tokens.DARK):
            style.wear(app, theme, moving=False)
            for width, height in SIZES:
                window.resize(width, height)
                for page in pages:
                    open_page(window, page, code)
                    settle(app, window)
                    window.toast.put_away()
                    file = folder / f"{page}-{width}-{theme.name}.png"
                    window.grab().save(str(file))
                    _leave(window, page)
                    say(file.name)
        window.close()
        house.store.close()


if __name__ == "__main__":
    write_pictures(Path(sys.argv[1]), sys.argv[2:] or PAGES, lambda _name: None)
