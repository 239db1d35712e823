"""The root of the program: which house is meant, where it is kept, whose clock it has."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from honeyledger import bootstrap
from honeyledger.backups import backups_file
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import new_house
from honeyledger.settings import Settings, settings_file, write_settings


@pytest.fixture(autouse=True)
def _own_folders(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path / "user"))
    monkeypatch.delenv(bootstrap.HOUSE_VARIABLE, raising=False)


def test_the_house_meant_is_given_or_of_the_environment_or_the_setting_or_ones_own(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    bare, set_here = Settings(), Settings(house="set.honeyledger")
    assert bootstrap.house_named("", bare) == bootstrap.default_house()
    assert Path(bootstrap.default_house()).is_relative_to(tmp_path)
    assert bootstrap.house_named("", set_here) == "set.honeyledger"
    monkeypatch.setenv(bootstrap.HOUSE_VARIABLE, "postgresql://scale/honey")
    assert bootstrap.house_named("", set_here) == "postgresql://scale/honey"
    assert bootstrap.house_named("given.honeyledger", set_here) == "given.honeyledger"


def test_ones_own_folder_is_made_for_the_first_house_and_no_other_is() -> None:
    where = bootstrap.default_house()
    house = bootstrap.open_house(where, create=True)
    house.record(Register("yard", {"name": "Mill Lane"}))
    house.store.close()
    again = bootstrap.open_house(where)
    assert again.ask(lambda view: view.head().entry) == 1
    again.store.close()
    elsewhere = Path(where).parent / "deeper" / "house.honeyledger"
    with pytest.raises(Refusal, match="There is no folder"):
        bootstrap.open_house(str(elsewhere), create=True)
    with pytest.raises(Refusal, match="There is no house at"):
        bootstrap.open_house(bootstrap.sample_house())


def test_a_house_is_made_and_opened_on_a_server(fresh_postgres_url: str) -> None:
    house = bootstrap.open_house(fresh_postgres_url, create=True)
    for facts in new_house("Hill House", "UTC"):
        house.record(facts)
    assert house.ask(lambda view: view.head().entry) == 4
    house.store.close()
    with pytest.raises(Refusal) as refused:
        bootstrap.back_up(fresh_postgres_url, "copy.honeyledger")
    assert refused.value.text == (
        "This house is on a database server: have it backed up there, with the server's own tools."
    )


def test_a_backup_is_written(tmp_path: Path) -> None:
    where = bootstrap.default_house()
    bootstrap.open_house(where, create=True).store.close()
    copy = tmp_path / "copy.honeyledger"
    told: list[tuple[int, int]] = []
    made = bootstrap.back_up(where, str(copy), lambda done, of: told.append((done, of)))
    assert copy.is_file()
    assert told[-1][0] == told[-1][1] > 0
    assert made.file == str(copy)
    assert bootstrap.last_of(made.ledger) == made, "it is remembered as the last one"
    assert bootstrap.last_of("another ledger") is None


def test_a_backup_that_cannot_be_remembered_is_made_all_the_same(tmp_path: Path) -> None:
    where = bootstrap.default_house()
    bootstrap.open_house(where, create=True).store.close()
    backups_file().mkdir(parents=True)
    copy = tmp_path / "copy.honeyledger"
    bootstrap.back_up(where, str(copy))
    assert copy.is_file()


def test_who_keeps_a_house_is_known_by_where_it_is() -> None:
    assert bootstrap.keeper_of(bootstrap.default_house()).kept == "here"
    assert bootstrap.keeper_of(bootstrap.sample_house()).kept == "nobody"
    server = bootstrap.keeper_of("postgresql://host/house")
    assert (server.kept, server.where) == ("server", "postgresql://host/house")


def test_settings_are_this_users() -> None:
    assert bootstrap.load_settings() == Settings()
    write_settings(Settings(station="dock"), settings_file())
    assert bootstrap.load_settings().station == "dock"
    assert bootstrap.station_name(bootstrap.load_settings()) == "dock"
    assert bootstrap.station_name(Settings())


def test_ids_are_fresh_and_the_clock_is_in_milliseconds() -> None:
    assert bootstrap.new_id() != bootstrap.new_id()
    # Between 2020 and 2100.
    assert 1_577_836_800_000 < bootstrap.clock() < 4_102_444_800_000


def test_a_clock_goes_on_from_where_it_was_set() -> None:
    before = bootstrap.clock()
    clock = bootstrap.clock_from(1_000)
    passed = clock() - 1_000
    assert 0 <= passed <= bootstrap.clock() - before


@pytest.mark.skipif(os.name == "nt", reason="Windows names its zones otherwise")
def test_the_zone_of_this_computer(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("TZ", "America/Winnipeg")
    assert bootstrap.local_zone() == "America/Winnipeg"
    monkeypatch.setenv("TZ", "Middle/Earth")
    link = tmp_path / "localtime"
    zones = tmp_path / "zoneinfo" / "Europe"
    zones.mkdir(parents=True)
    (zones / "Berlin").touch()
    link.symlink_to(zones / "Berlin")
    monkeypatch.setattr(bootstrap, "_LOCALTIME", link)
    assert bootstrap.local_zone() == "Europe/Berlin"
    monkeypatch.setattr(bootstrap, "_LOCALTIME", tmp_path / "none")
    assert bootstrap.local_zone() == "UTC"


@pytest.mark.qt_log_ignore("^This plugin does not support propagateSizeHints")
def test_the_window_opens_and_its_exit_code_comes_back(qapp: QApplication) -> None:
    house = bootstrap.open_house(bootstrap.default_house(), create=True)
    for facts in new_house("Hill House", "UTC"):
        house.record(facts)
    QTimer.singleShot(0, lambda: qapp.exit(0))
    assert bootstrap.open_window(house, Settings(), bootstrap.default_house()) == 0
    house.store.close()


@pytest.mark.skipif(os.name == "nt", reason="Windows always has a screen")
def test_without_a_screen_there_is_a_sentence_and_no_crash(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    house = bootstrap.open_house(bootstrap.default_house(), create=True)
    assert not bootstrap.has_screen()
    with pytest.raises(Refusal) as refused:
        bootstrap.open_window(house, Settings(), bootstrap.default_house())
    assert refused.value.text == (
        "There is no screen here to open a window on. Every command works without one: see "
        "honeyledger --help, or honeyledger tour."
    )
    house.store.close()


def test_a_system_that_lacks_a_library_is_told_what_to_do(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "honeyledger.desktop.app", None)
    monkeypatch.setitem(sys.modules, "PySide6.QtWidgets", None)
    house = bootstrap.open_house(bootstrap.default_house(), create=True)
    with pytest.raises(ModuleNotFoundError):
        bootstrap.open_window(house, Settings(), bootstrap.default_house())
    monkeypatch.delitem(sys.modules, "honeyledger.desktop.app")
    with pytest.raises(Refusal) as refused:
        bootstrap.open_window(house, Settings(), bootstrap.default_house())
    missing = refused.value.__cause__
    assert refused.value.text == (
        f"The window cannot be opened, for the system lacks a library ({missing}). Start the "
        "program with packaging/start.py, which installs it or says what to install."
    )
    house.store.close()


def test_a_first_house_is_whole_or_not_there(tmp_path: Path) -> None:
    where = bootstrap.default_house()
    with pytest.raises(Refusal):
        bootstrap.make_house(where, new_house("  ", "UTC"), "UTC", "dock")
    assert not Path(where).exists()
    made = bootstrap.make_house(where, new_house("Hill House", "UTC"), "UTC", "dock")
    assert made.house.ask(lambda view: view.head().entry) == 4
    assert [file.name for file in Path(where).parent.glob("*.part*")] == []
    made.house.store.close()
    with pytest.raises(Refusal, match="already"):
        bootstrap.make_house(where, new_house("Hill House", "UTC"), "UTC", "dock")


def test_a_first_house_on_a_server_is_made_in_its_place(fresh_postgres_url: str) -> None:
    made = bootstrap.make_house(fresh_postgres_url, new_house("Hill House", "UTC"), "UTC", "dock")
    assert made.house.ask(lambda view: view.head().entry) == 4
    made.house.store.close()


def test_the_ways_in_lead_to_a_house() -> None:
    ways = bootstrap.doors(bootstrap.default_house(), Settings(station="dock"))
    assert not ways.is_missed
    made = ways.make(new_house("Hill House", ways.zone))
    assert made.house.ask(lambda view: view.entries(last=1))[0].act.station == "dock"
    made.house.store.close()
    again = ways.open(bootstrap.default_house())
    assert again.house.ask(lambda view: view.head().entry) == 4
    again.house.store.close()
    assert bootstrap.doors("elsewhere.honeyledger", Settings()).is_missed


FROM_NOTHING = """
from PySide6.QtCore import QTimer, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from honeyledger import bootstrap
from honeyledger.desktop.first_run.view import FirstRunWindow
from honeyledger.desktop.main_window import MainWindow
from honeyledger.settings import Settings

seen = []
first_shown, shown = FirstRunWindow.showEvent, MainWindow.showEvent


def press(*keys):
    for key in keys:
        QTest.keyClick(QApplication.focusWidget(), key)
        QApplication.processEvents()


def when(is_so, then):
    QTimer.singleShot(20, lambda: then() if is_so() else when(is_so, then))


def on_first_shown(window, event):
    first_shown(window, event)
    seen.append(window.devicePixelRatioF())
    if len(seen) == 1:
        when(window.jobs.is_idle, lambda: press(*[Qt.Key.Key_Down] * 2, Qt.Key.Key_Return))
        return
    when(window.jobs.is_idle, lambda: (press(Qt.Key.Key_Return), name(window)))


def name(window):
    QTest.keyClicks(QApplication.focusWidget(), "Hill House")
    press(*[Qt.Key.Key_Return] * 6)


def on_shown(window, event):
    shown(window, event)
    setup = window.stations["setup"]
    when(lambda: setup.presenter.is_begun and window.desk.jobs.is_idle(), lambda: look(window))


def look(window):
    window.grab()
    slot = window.stations["setup"].slot.sentence()[:12]
    seen.extend([window.devicePixelRatioF(), window.shell.open_key(), slot])
    window.close()


FirstRunWindow.showEvent, MainWindow.showEvent = on_first_shown, on_shown
code = bootstrap.open_first(bootstrap.default_house(), Settings())
print(code, seen, bootstrap.load_settings().scale)
"""


def test_from_nothing_to_a_house_in_a_size_that_reads_well() -> None:
    done = subprocess.run(
        [sys.executable, "-c", FROM_NOTHING],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
        timeout=240,
    )
    assert done.stdout == "0 [1.0, 1.5, 1.5, 'setup', 'Step 2 of 6.'] 150\n", done.stderr
    said = [line for line in done.stderr.splitlines() if "propagateSizeHints" not in line]
    assert said == []
