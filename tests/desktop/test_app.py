"""The program starts on a real house, at every size, and never enters its store by itself."""

import signal
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.assets import resource
from honeyledger.desktop import app as window_app
from honeyledger.desktop.desk import Desk
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.refresh import ANEW
from honeyledger.desktop.scanning import monotonic_ms
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from honeyledger.settings import Settings
from tests.desktop.rig import LanesOnlyStore, Rig
from tests.support.houses import START_MS
from tests.support.tiers import first_plain


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def test_the_program_shows_its_window_and_ends(tmp_path: Path) -> None:
    store = open_store(str(tmp_path / "house"), create=True, new_id=lambda: "ledger-1")
    house = House(LanesOnlyStore(store), lambda: START_MS, lambda: "id")
    shown: list[str] = []

    def look_round() -> None:
        window = next(one for one in QApplication.topLevelWidgets() if one.isVisible())
        shown.append(window.windowTitle())
        window.close()  # the last window: the program ends with it

    QTimer.singleShot(300, look_round)
    assert window_app.main(house, Settings(look="dark", tones=False), resource(), "dock 1") == 0
    assert shown == ["Honeyledger"]
    store.close()


def test_another_language_begins_another_window_on_the_same_house(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = open_store(str(tmp_path / "house"), create=True, new_id=lambda: "ledger-1")
    house = House(LanesOnlyStore(store), lambda: START_MS, lambda: "id")
    kept: list[Settings] = []
    monkeypatch.setattr(window_app, "write_settings", lambda new, _file: kept.append(new))
    shown: list[tuple[str, list[str]]] = []
    build = window_app.build_on

    def built(desk: Desk, *, first: str) -> MainWindow:
        window = build(desk, first=first)
        shown.append((first, list(window.shell.line.tool_names())))
        if len(shown) == 1:
            desk.remember(replace(desk.settings, language="es"))
            QTimer.singleShot(0, lambda: desk.refresh.broadcast(ANEW))
        else:
            QTimer.singleShot(0, window.close)
        return window

    monkeypatch.setattr(window_app, "build_on", built)
    assert window_app.main(house, Settings(tones=False), resource()) == 0
    assert [first for first, _names in shown] == ["dock", "setup"]
    assert [names[0] for _first, names in shown] == ["Trace", "Rastreo"]
    assert [one.language for one in kept] == ["es"]
    store.close()


def test_a_visit_is_another_window_and_so_is_what_comes_after_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = open_store(str(tmp_path / "house"), create=True, new_id=lambda: "ledger-1")
    house = House(LanesOnlyStore(store), lambda: START_MS, lambda: "id")
    kept: list[Settings] = []
    monkeypatch.setattr(window_app, "write_settings", lambda new, _file: kept.append(new))
    shown: list[tuple[str, bool, str]] = []
    folders: list[Path] = []
    build = window_app.build_on

    def built(desk: Desk, *, first: str) -> MainWindow:
        window = build(desk, first=first)
        shown.append((first, desk.is_visit, desk.settings.operator))
        if len(shown) == 1:
            QTimer.singleShot(0, window.visit.begin)
        elif len(shown) == 2:
            folders.append(desk.drafts.folder)
            assert desk.drafts.folder.is_dir()
            # Nobody is registered here, so there is no badge to ask for.
            QTimer.singleShot(0, window.visit.ask_badge)
        else:
            QTimer.singleShot(0, window.close)
        return window

    monkeypatch.setattr(window_app, "build_on", built)
    settings = Settings(tones=False, operator="O26-0001-X")
    assert window_app.main(house, settings, resource()) == 0
    assert [(first, is_visit) for first, is_visit, _ in shown] == [
        ("dock", False),
        ("dock", True),
        ("dock", False),
    ]
    assert [operator for _, _, operator in shown[1:]] == ["", ""]
    assert [folder.exists() for folder in folders] == [False]
    store.close()


def test_where_it_is_asked_for_a_window_that_is_held_is_logged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setenv(window_app.WATCH_VARIABLE, "1")
    store = open_store(str(tmp_path / "house"), create=True, new_id=lambda: "ledger-1")
    house = House(LanesOnlyStore(store), lambda: START_MS, lambda: "id")
    held: list[float] = []

    def hold() -> None:
        until_ms = monotonic_ms() + 200
        while monotonic_ms() < until_ms:
            held.append(until_ms)

    def close() -> None:
        if "hold" in caplog.text:
            QApplication.closeAllWindows()
        else:
            # The watch may not have begun yet where the machine is busy.
            hold()
            QTimer.singleShot(300, close)

    QTimer.singleShot(300, hold)
    QTimer.singleShot(600, close)
    assert window_app.main(house, Settings(tones=False), resource()) == 0
    assert "The window was held for" in caplog.text
    store.close()


def test_what_other_places_need_is_loaded_beside_the_window(rig: Rig) -> None:
    name = "honeyledger.desktop.stations.entries.view"
    kept = sys.modules.pop(name)
    window_app.load_ahead(rig.desk)
    rig.settle()
    assert name in sys.modules
    sys.modules[name] = kept


def test_control_c_in_the_terminal_closes_the_window_as_a_person_does(tmp_path: Path) -> None:
    store = open_store(str(tmp_path / "house"), create=True, new_id=lambda: "ledger-1")
    house = House(LanesOnlyStore(store), lambda: START_MS, lambda: "id")
    before = signal.getsignal(signal.SIGINT)
    QTimer.singleShot(300, lambda: signal.raise_signal(signal.SIGINT))
    assert window_app.main(house, Settings(tones=False), resource()) == 0
    assert signal.getsignal(signal.SIGINT) is before
    store.close()


def test_the_window_s_thread_never_enters_the_store(rig: Rig) -> None:
    with pytest.raises(AssertionError, match="the window's thread entered the store"):
        rig.desk.house.ask(lambda view: view.head())
    # Every page of the rig is worked on such a store: here, each of them once.
    for key in rig.window.stations:
        rig.window.open_station(key)
        rig.settle()
        for action in ("print", "card", "trace-this", "find", "clear", "repeat", "more-yards"):
            rig.window.station().handle(action)
            rig.settle()


def test_a_window_built_for_a_look_leaves_nothing_behind(qtbot: QtBot, tmp_path: Path) -> None:
    store = open_store(str(tmp_path / "house"), create=True, new_id=lambda: "ledger-1")
    house = House(LanesOnlyStore(store), lambda: START_MS, lambda: "id")
    window = window_app.build(house, Settings(tones=False, station="dock 1"), resource())
    qtbot.addWidget(window)
    qtbot.waitUntil(window.desk.jobs.is_idle)
    assert window.desk.said().station == "dock 1"
    window.close()
    store.close()


# The largest and the smallest first.
SIZES = (
    *((1920, 1080), (640, 400)),
    *((1280, 800), (1280, 728), (1024, 700), (853, 640), (731, 560)),
)


@pytest.mark.parametrize("size", first_plain(((size,) for size in SIZES), 2))
def test_no_page_makes_the_window_larger_than_the_screen(rig: Rig, size: tuple[int, int]) -> None:
    for key in rig.window.stations:
        rig.window.resize(*size)
        rig.window.open_station(key)
        rig.settle()
        assert (rig.window.width(), rig.window.height()) == size, key


def test_papers_are_written_among_the_person_s_documents() -> None:
    assert window_app.papers_folder().name == "Honeyledger"
