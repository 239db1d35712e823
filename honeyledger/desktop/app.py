"""Starts the window on a house that is open already.

Stations are loaded by name and made when first opened: the window waits only for the first one.
"""

import importlib
import logging
import os
import shutil
import signal
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QByteArray, QEvent, QStandardPaths, QTimer, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from honeyledger import garbage
from honeyledger.desktop import icons, language, look, style, sweeping, system_looks
from honeyledger.desktop.desk import CopiesAsked, Desk, LabelsAsked, LabelsWanted, StationView
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs, Report
from honeyledger.desktop.keeping import Keeping
from honeyledger.desktop.main_window import ENTRIES, MainWindow
from honeyledger.desktop.refresh import ANEW, Refresh
from honeyledger.desktop.scanning import monotonic_ms
from honeyledger.desktop.stations.card.view import CardView
from honeyledger.desktop.turns import Making, in_pieces
from honeyledger.desktop.watchdog import Watchdog
from honeyledger.services.backups import Keeper
from honeyledger.services.beginning import Doors, Opened
from honeyledger.services.house import House
from honeyledger.settings import (
    Look,
    Settings,
    data_folder,
    printers_file,
    settings_file,
    write_settings,
)

FIRST = "dock"
STATIONS = {
    "yards": "yards",
    "dock": "dock",
    "hot_room": "hot_room",
    "extraction": "extraction",
    "drums": "drums",
    "bottling": "bottling",
    "dispatch": "dispatch",
    "trace": "trace",
    "season": "season",
    "setup": "setup",
    "checks": "checks",
    "recalls": "recalls",
    "exposure": "exposure",
    "calculator": "calculator",
    "keys": "keys",
    "guide": "guide",
}
"""For each place and tool the station that has its page."""

LATER = (
    "honeyledger.desktop.stations.card.rows",
    "honeyledger.desktop.widgets.card",
    "honeyledger.desktop.stations.dock.pallet_asks",
)
"""What the window and its first station load when it is first asked for."""

SETUP = "setup"
SCALE_VARIABLE = "QT_SCALE_FACTOR"
USUAL_SCALE = "100"
_GIVEN_SCALE = os.environ.get(SCALE_VARIABLE)
# By then the first station has its answers, and nobody waits.
LOAD_AHEAD_MS = 1_500
WATCH_VARIABLE = "HONEYLEDGER_WATCH"
_LOG = logging.getLogger("honeyledger.window")


@dataclass(frozen=True, slots=True)
class Begun:
    """What the first run ended with: a house that is open, and this computer's settings."""

    opened: Opened
    settings: Settings


def build(house: House, settings: Settings, assets: Path) -> MainWindow:
    """The window of a house, not yet shown; it writes nothing outside the house by itself."""
    desk = Desk(
        house,
        Jobs(),
        Refresh(),
        settings,
        assets,
        settings.operator,
        station=settings.station,
    )
    return build_on(desk)


def build_on(
    desk: Desk, scan_clock: Callable[[], float] = monotonic_ms, first: str = FIRST
) -> MainWindow:
    """The window of a desk, not yet shown.

    Args:
        scan_clock: the time of keys that carry none, in milliseconds.
        first: the station that is opened first.
    """
    keeping = Keeping(desk)
    makers: dict[str, Callable[[], Making[StationView]]] = {
        key: partial(_station, desk, key) for key in STATIONS
    }
    makers[ENTRIES] = partial(_entries, desk, keeping)
    window = MainWindow(desk, makers, CardView(desk), keeping, scan_clock)
    window.begin(first)
    return window


def _entries(desk: Desk, keeping: Keeping) -> Making[StationView]:
    """The page of what was recorded, which backs the house up, too."""
    module = importlib.import_module("honeyledger.desktop.stations.entries.view")
    return _page(module.EntriesView, desk, keeping)


def _station(desk: Desk, key: str) -> Making[StationView]:
    """A station's page, its module loaded."""
    station = STATIONS[key]
    module = importlib.import_module(f"honeyledger.desktop.stations.{station}.view")
    name = "".join(part.capitalize() for part in station.split("_"))
    return _page(getattr(module, f"{name}View"), desk)


def _page(kind: Any, *given: object) -> Making[StationView]:
    """A page, piece by piece where it is a large one."""
    page: StationView
    page = (yield from in_pieces(kind, *given)) if hasattr(kind, "pieces") else kind(*given)
    return page


def load_ahead(desk: Desk) -> None:
    """Load what other places and papers need, beside the window: opening one waits for less."""
    places = [f"honeyledger.desktop.stations.{one}.view" for one in (*STATIONS.values(), ENTRIES)]

    def load(_report: Report) -> None:
        for name in (*places, *LATER):
            importlib.import_module(name)

    desk.jobs.work(load, lambda _outcome: garbage.is_loaded())


def papers_folder() -> Path:
    """Where labels and reports are written: a folder of the person's own documents."""
    place = QStandardPaths.StandardLocation.DocumentsLocation
    return Path(QStandardPaths.writableLocation(place)) / "Honeyledger"


def _open_paper(file: Path) -> None:
    QDesktopServices.openUrl(QUrl.fromLocalFile(str(file)))


def _choose_folder(parent: QWidget, folder: Path) -> Path | None:
    """The system's own way to choose a folder; None where the person thinks better of it."""
    title = parent.tr("Where backups are kept")
    chosen = QFileDialog.getExistingDirectory(parent, title, str(folder))
    return Path(chosen) if chosen else None


def _choose_file(parent: QWidget) -> Path | None:
    """The system's own way to choose a table's file; None where the person thinks better of it."""
    title, sort = parent.tr("A table from a spreadsheet"), parent.tr("Tables (*.csv *.txt *.tsv)")
    chosen, _ = QFileDialog.getOpenFileName(parent, title, "", sort)
    return Path(chosen) if chosen else None


def _ask_labels(asked: LabelsAsked, then: Callable[[LabelsWanted | None], None]) -> None:
    """Labels seen before they are printed; loaded when first asked."""
    importlib.import_module("honeyledger.desktop.widgets.labels_ask").ask_labels(asked, then)


def _ask_copies(asked: CopiesAsked, then: Callable[[int], None]) -> None:
    """How many of a paper; loaded when first asked."""
    importlib.import_module("honeyledger.desktop.widgets.copies_ask").ask_copies(asked, then)


def _ask_printer(sheets: object, then: Callable[[Callable[[Report], str]], None]) -> None:
    """The system's own print dialog, in front of the window in use."""
    sending = importlib.import_module("honeyledger.desktop.sending")
    sending.through_dialog(sheets, QApplication.activeWindow(), then)


def _choose_house(parent: QWidget) -> Path | None:
    """The system's own way to choose a house's file; None where none is chosen."""
    title, sort = parent.tr("Open a house that is there"), parent.tr("Houses (*.honeyledger)")
    chosen, _ = QFileDialog.getOpenFileName(parent, title, "", sort)
    return Path(chosen) if chosen else None


def _keep_settings(settings: Settings) -> None:
    write_settings(settings, settings_file())


def application(settings: Settings) -> QApplication:
    """The application as this computer's settings dress it; made, unless there is one already."""
    running = QApplication.instance()
    if isinstance(running, QApplication):
        app = running
    else:
        _scale(settings.scale)
        app = QApplication(["honeyledger"])
    sweeping.sweep_here(app)
    app.setApplicationName("Honeyledger")
    language.wear(app, settings.language)
    app.setWindowIcon(icons.program_icon())
    style.install(app, system_looks.theme_for(settings.look))
    return app


def _scale(scale: str) -> None:
    """Let Qt draw everything so large; where nothing is said, as the person's own surroundings."""
    if scale != USUAL_SCALE:
        os.environ[SCALE_VARIABLE] = str(int(scale) / 100)
    elif _GIVEN_SCALE is None:
        os.environ.pop(SCALE_VARIABLE, None)
    else:
        os.environ[SCALE_VARIABLE] = _GIVEN_SCALE


def begin(doors: Doors, settings: Settings) -> Begun | None:
    """Show the way from nothing to a house, and stay until there is one; None for none.

    Another text size needs another application, as Qt asks for the size but once in its life.
    """
    # By name: whoever has a house already does not wait for it.
    first = importlib.import_module("honeyledger.desktop.first_run.view")
    lent = first.Lent(Drafts(data_folder() / "drafts"), _keep_settings, _choose_house)
    while True:
        owned = QApplication.instance() is None
        app = application(settings)
        window = first.FirstRunWindow(doors, settings, lent)
        window.show()
        app.exec()
        opened, settings, is_again = window.opened, window.steps.settings, window.is_again
        _let_go(app, window, whole=owned)
        if not is_again:
            return Begun(opened, settings) if opened is not None else None


def main(
    house: House,
    settings: Settings,
    assets: Path,
    station: str = "",
    keeper: Keeper | None = None,
    *,
    is_new: bool = False,
) -> int:
    """Show the window and stay until it is closed; answers the exit code.

    Another language or text size begins another window on the same house, where one was.

    Args:
        station: the name under which this computer's entries are kept.
        keeper: who makes backups of the house.
        is_new: whether the house is still being set up: that comes before the dock.
    """
    made, first = QApplication.instance() is None, SETUP if is_new else FIRST
    shape, visits = QByteArray(), False
    while True:
        app = application(settings)
        desk = _lent_desk(house, settings, assets, station, keeper)
        if visits:
            desk = _visited(desk)
        window = build_on(desk, first=first)
        window.restoreGeometry(shape)
        again: list[QByteArray] = []
        desk.refresh.watch(ANEW, partial(_close_for_another, window, again))
        style.SystemFollower(partial(_look_of, desk), window)
        with window.scanner.resting():
            window.show()
        QTimer.singleShot(LOAD_AHEAD_MS, window, partial(load_ahead, desk))
        with _closed_by_signals(window), _watched():
            code = app.exec()
        if visits:
            # What a visitor typed half is nobody's.
            shutil.rmtree(desk.drafts.folder, ignore_errors=True)
        if not again:
            return code
        turned = visits != desk.visits_next
        settings, first, shape = desk.settings, FIRST if turned else SETUP, again[0]
        visits = desk.visits_next
        if made:
            # What of the old window waits for its time goes with its application.
            _let_go(app, window, whole=True)
        del window, desk
        sweeping.sweep_whole()


def _lent_desk(
    house: House, settings: Settings, assets: Path, station: str, keeper: Keeper | None
) -> Desk:
    """What a window works with: the house, and what the program lends it of this computer."""
    return Desk(
        house,
        Jobs(),
        Refresh(),
        settings,
        assets,
        settings.operator,
        station=station or settings.station,
        papers=papers_folder(),
        open_paper=_open_paper,
        keep_settings=_keep_settings,
        keeper=keeper,
        choose_folder=_choose_folder,
        choose_file=_choose_file,
        printers=printers_file(),
        ask_labels=_ask_labels,
        ask_copies=_ask_copies,
        ask_printer=_ask_printer,
    )


def _visited(desk: Desk) -> Desk:
    """The desk of a visitor, where no form that was left is shown; loaded when there is one."""
    visiting = importlib.import_module("honeyledger.desktop.visiting")
    found: Desk = visiting.visited(desk, Path(tempfile.mkdtemp(prefix="honeyledger-visit-")))
    return found


def _look_of(desk: Desk) -> Look:
    """How the window is to look, by what is set now."""
    return desk.settings.look


def _close_for_another(window: QWidget, again: list[QByteArray]) -> None:
    """Close a window whose language or size changed; another begins where it stands."""
    again.append(window.saveGeometry())
    # When what is being said of the change is said.
    QTimer.singleShot(0, window, window.close)


def _let_go(app: QApplication, window: QWidget, *, whole: bool) -> None:
    """Let go of a window that another follows, and of its application where it is ours."""
    window.deleteLater()
    app.sendPostedEvents(window, QEvent.Type.DeferredDelete)
    if whole:
        language.take_off(app)
        look.forget_fonts()
        icons.forget()
        app.shutdown()


@contextmanager
def _watched() -> Iterator[None]:
    """Where this is asked for, log every time the window is held, and by what."""
    if not os.environ.get(WATCH_VARIABLE):
        yield
        return
    dog = Watchdog()
    dog.blocked.connect(lambda block: _LOG.warning("%s", block))
    dog.start()
    try:
        yield
    finally:
        dog.stop()


@contextmanager
def _closed_by_signals(window: MainWindow) -> Iterator[None]:
    """Let Ctrl+C in the terminal, and the end of the session, close the window as a person does.

    Python hears of a signal when it next runs: at the latest when the other stations are asked.
    """
    heard = (signal.SIGINT, signal.SIGTERM)
    before = [signal.signal(one, lambda _number, _frame: window.close()) for one in heard]
    try:
        yield
    finally:
        for one, handler in zip(heard, before, strict=True):
            signal.signal(one, handler)
