"""Starts the window on a house that is open already."""

import logging
import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from honeyledger.desktop import icons, style
from honeyledger.desktop.desk import Desk, StationView
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.main_window import KEYS, MainWindow
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.scanning import monotonic_ms
from honeyledger.desktop.stations.bottling.view import BottlingView
from honeyledger.desktop.stations.card.view import CardView
from honeyledger.desktop.stations.dispatch.view import DispatchView
from honeyledger.desktop.stations.dock.view import DockView
from honeyledger.desktop.stations.extraction.view import ExtractionView
from honeyledger.desktop.stations.keys.view import KeysView
from honeyledger.desktop.stations.meanwhile.pages import PAGES
from honeyledger.desktop.stations.meanwhile.view import MeanwhileView
from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.desktop.watchdog import Watchdog
from honeyledger.services.backups import Keeper
from honeyledger.services.house import House
from honeyledger.settings import Settings, settings_file, write_settings

FIRST = "dock"
WATCH_VARIABLE = "HONEYLEDGER_WATCH"
_LOG = logging.getLogger("honeyledger.window")


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


def build_on(desk: Desk, scan_clock: Callable[[], float] = monotonic_ms) -> MainWindow:
    """The window of a desk, not yet shown.

    Args:
        scan_clock: the time of keys that carry none, in milliseconds.
    """
    stations: dict[str, StationView] = {
        "dock": DockView(desk),
        "extraction": ExtractionView(desk),
        "dispatch": DispatchView(desk),
        "bottling": BottlingView(desk),
        "trace": TraceView(desk),
        "setup": SetupView(desk),
        KEYS: KeysView(),
    }
    for key in PAGES:
        stations[key] = MeanwhileView(desk, key)
    window = MainWindow(desk, stations, CardView(desk), scan_clock)
    window.begin(FIRST)
    return window


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


def _keep_settings(settings: Settings) -> None:
    write_settings(settings, settings_file())


def main(
    house: House,
    settings: Settings,
    assets: Path,
    station: str = "",
    keeper: Keeper | None = None,
) -> int:
    """Show the window and stay until it is closed; answers the exit code.

    Args:
        station: the name under which this computer's entries are kept.
        keeper: who makes backups of the house.
    """
    running = QApplication.instance()
    app = running if isinstance(running, QApplication) else QApplication(["honeyledger"])
    app.setApplicationName("Honeyledger")
    app.setWindowIcon(icons.program_icon())
    style.install(app, style.theme_for(settings.look))
    desk = Desk(
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
    )
    window = build_on(desk)
    window.show()
    with _closed_by_signals(window), _watched():
        return app.exec()


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
