"""Starts the window on a house that is open already."""

from pathlib import Path

from PySide6.QtWidgets import QApplication

from honeyledger.desktop import style
from honeyledger.desktop.desk import Desk, StationView
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.stations.card.view import CardView
from honeyledger.desktop.stations.dock.view import DockView
from honeyledger.desktop.stations.extraction.view import ExtractionView
from honeyledger.desktop.stations.meanwhile.view import MeanwhileView
from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.services.house import House
from honeyledger.settings import Settings

MEANWHILE = ("yards", "hot_room", "drums", "bottling", "dispatch", "season", "setup")
FIRST = "dock"


def build(house: House, settings: Settings, assets: Path) -> MainWindow:
    """The window of a house, not yet shown."""
    jobs = Jobs()
    desk = Desk(house, jobs, Refresh(), settings, assets, settings.operator)
    stations: dict[str, StationView] = {
        "dock": DockView(desk),
        "extraction": ExtractionView(desk),
        "trace": TraceView(desk),
    }
    for key in MEANWHILE:
        stations[key] = MeanwhileView(desk, key)
    window = MainWindow(desk, stations, CardView(desk))
    window.open_station(FIRST)
    window.refresh_frame()
    return window


def main(house: House, settings: Settings, assets: Path) -> int:
    """Show the window and stay until it is closed; answers the exit code."""
    running = QApplication.instance()
    app = running if isinstance(running, QApplication) else QApplication(["honeyledger"])
    app.setApplicationName("Honeyledger")
    style.install(app, style.theme_for(settings.look))
    window = build(house, settings, assets)
    window.show()
    return app.exec()
