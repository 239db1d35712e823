"""Puts the program together: settings, the store, the house; the only place that knows them all.

What costs time to load is loaded by name, when it is first used.
"""

import importlib
import os
import platform
import sys
import time
import uuid
from collections.abc import Callable, Sequence
from contextlib import closing, suppress
from pathlib import Path
from types import ModuleType

from honeyledger import garbage
from honeyledger.assets import resource
from honeyledger.backups import backups_file, last_backup, remember_backup
from honeyledger.domain.moments import check_zone, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Act
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.backups import Backup, Keeper
from honeyledger.services.beginning import Doors, Opened, Report
from honeyledger.services.house import House, Said
from honeyledger.services.setup import wants_setting_up
from honeyledger.services.store import Head, Store
from honeyledger.settings import Settings, data_folder, read_settings, settings_file

HOUSE_VARIABLE = "HONEYLEDGER_HOUSE"
HOUSE_FILE = "house.honeyledger"
SAMPLE_FILE = "sample-season.honeyledger"
PART = ".part"
_STORE = "honeyledger.persistence.store"
_BACKUP = "honeyledger.persistence.backup"
_UPGRADE = "honeyledger.persistence.upgrade"
_SAMPLE = "honeyledger.exchange.sample_house"
_UPKEEP = {
    "upgrade": "upgrade",
    "guards": "install_guards",
    "rebuild": "rebuild_projections",
}
_LOCALTIME = Path("/etc/localtime")

BACKED_UP_BY_SERVER = Sentence(
    "backed-up-by-server",
    "This house is on a database server: have it backed up there, with the server's own tools.",
)

NO_SCREEN = Sentence(
    "no-screen",
    "There is no screen here to open a window on. Every command works without one: see "
    "honeyledger --help, or honeyledger tour.",
)
NO_LIBRARIES = Sentence(
    "no-libraries",
    "The window cannot be opened, for the system lacks a library ({what}). Start the program "
    "with packaging/start.py, which installs it or says what to install.",
)
_SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")


def clock() -> int:
    """Milliseconds UTC now."""
    return time.time_ns() // 1_000_000


def clock_from(start_ms: int) -> Callable[[], int]:
    """A clock that goes on from a moment as time passes: the sample season has its own now."""
    began_ms = clock()
    return lambda: start_ms + clock() - began_ms


def new_id() -> str:
    """A fresh id, for a command or a ledger."""
    return uuid.uuid4().hex


def load_settings() -> Settings:
    """This computer's settings."""
    return read_settings(settings_file())


def default_house() -> str:
    """The file of a house for which no place was ever named."""
    return str(data_folder() / HOUSE_FILE)


def sample_house() -> str:
    """The file in which the sample season is kept."""
    return str(data_folder() / SAMPLE_FILE)


def house_named(given: str, settings: Settings) -> str:
    """The house meant: the one given, else the environment's, the setting's, the user's own."""
    named = given or os.environ.get(HOUSE_VARIABLE, "") or settings.house
    return named or default_house()


def open_house(
    where: str,
    *,
    create: bool = False,
    clock: Callable[[], int] = clock,
    new_id: Callable[[], str] = new_id,
) -> House:
    """Open a house, or make an empty one.

    Args:
        where: a file's path or "postgresql://...".
        create: make it; there must be none yet. The user's own data folder is made as well.

    Raises:
        Refusal: there is no such house, or it cannot be opened.
    """
    path = house_file(where)
    if create and path is not None and path.parent == data_folder():
        path.parent.mkdir(parents=True, exist_ok=True)
    open_store: Callable[..., Store] = importlib.import_module(_STORE).open_store
    garbage.is_loaded()
    return House(open_store(where, create=create, new_id=new_id), clock, new_id)


def station_name(settings: Settings) -> str:
    """The name under which this computer's entries are kept."""
    return settings.station or platform.node() or "unnamed"


def local_zone() -> str:
    """The name of this computer's time zone, as far as it can be told; UTC otherwise."""
    names = [os.environ.get("TZ", "").removeprefix(":")]
    if _LOCALTIME.is_symlink():
        names.append(str(_LOCALTIME.resolve()).partition("zoneinfo/")[2])
    for name in filter(None, names):
        try:
            return check_zone(name)
        except Refusal:
            continue
    return "UTC"


def back_up(where: str, target: str, report: Callable[[int, int], None] | None = None) -> Backup:
    """Write a copy of a house's file, whole or not at all, and remember it as the last.

    Args:
        report: told how many pages of the file are copied, and of how many.

    Raises:
        Refusal: the house is on a server, or nothing can be written there.
    """
    path = house_file(where)
    if path is None:
        raise Refusal(BACKED_UP_BY_SERVER, field="house")
    copy: Callable[..., Head] = importlib.import_module(_BACKUP).back_up
    file = Path(target).expanduser().absolute()
    head = copy(path, file, report)
    made = Backup(str(file), clock(), head.ledger_id, head.entry, head.digest)
    with suppress(OSError):  # The copy is made; where it cannot be remembered it is still there.
        remember_backup(backups_file(), made)
    return made


def keep_up(action: str, where: str, operator: str, station: str) -> object:
    """Do the owner's work on a house and record it; answers what that work answers.

    Args:
        action: "upgrade", "guards" or "rebuild".

    Raises:
        Refusal: there is no house, or nothing to be done.
    """
    work = importlib.import_module(_UPGRADE)
    now_ms = clock()
    act = Act(moment_at(now_ms, local_zone()), operator, station, new_id())
    done: object = getattr(work, _UPKEEP[action])(where, act, now_ms)
    return done


def house_file(where: str) -> Path | None:
    """The file a house is in; None for one on a server."""
    if "://" in where and not where.startswith("sqlite:///"):
        return None
    return Path(where.removeprefix("sqlite:///")).expanduser().absolute()


def open_window(house: House, settings: Settings, where: str) -> int:
    """Hand over to the window; answers its exit code.

    Args:
        where: the house's file or address, of which the window makes backups.

    Raises:
        Refusal: there is no screen, or the system lacks what the window is drawn with.
    """
    app = _window_module()
    code: int = app.main(
        house,
        settings,
        resource(),
        station_name(settings),
        keeper_of(where),
        is_new=house.ask(wants_setting_up),
    )
    return code


def _window_module() -> ModuleType:
    """What the window is made of, loaded where there is a screen."""
    if not has_screen():
        raise Refusal(NO_SCREEN)
    garbage.is_loading()
    try:
        return importlib.import_module("honeyledger.desktop.app")
    except ImportError as missing:
        if missing.name is not None and missing.name.startswith("honeyledger"):
            raise
        raise Refusal(NO_LIBRARIES, what=missing) from missing


def open_first(where: str, settings: Settings) -> int:
    """From a machine without a house to one, then the window on it; answers its exit code.

    Args:
        where: the file or address a new house goes to.

    Raises:
        Refusal: there is no screen, or the system lacks what the window is drawn with.
    """
    begun = _window_module().begin(doors(where, settings), settings)
    if begun is None:
        return 0
    with closing(begun.opened.house.store):
        return open_window(begun.opened.house, begun.settings, begun.opened.where)


def doors(where: str, settings: Settings) -> Doors:
    """The ways into a house where there is none yet."""
    zone = local_zone()

    def sample(report: Report) -> Opened:
        file = Path(sample_house())
        file.parent.mkdir(parents=True, exist_ok=True)
        open_sample: Callable[..., House] = importlib.import_module(_SAMPLE).open_sample
        house = open_sample(
            file,
            resource("sample"),
            open_house,
            clock_from,
            lambda done, of, _day: report(done, of),
        )
        return Opened(house, str(file))

    return Doors(
        zone,
        where,
        is_missed=where != default_house(),
        make=lambda facts: make_house(where, facts, zone, station_name(settings)),
        open=lambda given: Opened(open_house(given), given),
        sample=sample,
    )


def make_house(where: str, facts: Sequence[Register], zone: str, station: str) -> Opened:
    """A new house with its first facts: a file takes its name only when they are in it.

    Raises:
        Refusal: there is one already, it cannot be made there, or a fact is refused.
    """
    path = house_file(where)
    is_new_file = path is not None and not path.exists()
    beside = f"{path}{PART}" if is_new_file else where
    if is_new_file:
        for ending in ("", "-wal", "-shm"):  # What a crash left of another try is nobody's.
            Path(f"{beside}{ending}").unlink(missing_ok=True)
    house = open_house(beside, create=True)
    said = Said(station=station, command=new_id(), happened=moment_at(clock(), zone))
    with closing(house.store):
        house.record_all(facts, said)
    if is_new_file:
        Path(beside).rename(Path(f"{path}"))
    return Opened(open_house(where), where)


def keeper_of(where: str) -> Keeper:
    """Who makes and remembers backups of a house; of the sample season nobody does."""
    path = house_file(where)
    if path is None:
        return Keeper(where, "server", back_up, last_of)
    is_sample = path == Path(sample_house())
    return Keeper(where, "nobody" if is_sample else "here", back_up, last_of)


def last_of(ledger: str) -> Backup | None:
    """The last backup of a ledger that was made from this computer."""
    return last_backup(backups_file(), ledger)


def has_screen() -> bool:
    """Whether a window can be shown here."""
    if sys.platform.startswith(("win", "darwin")):
        return True
    return any(os.environ.get(name) for name in _SCREENS)
