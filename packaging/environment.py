"""Makes the project's own environment in `.venv`, and on Debian or Ubuntu gets Qt's libraries.

Standard library only, since it runs before anything is installed. A stamp tells the next run that
nothing has changed, so that it needs neither time nor a network.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
VENV = ROOT / ".venv"
STAMP = VENV / "honeyledger.json"

# What Qt asks of the system, found by adding one package an ImportError on a bare Debian 12 until
# the window showed; the lists for a screen are what its plugins are linked with, by ldd.
OFFSCREEN_PACKAGES = (
    *("libgl1", "libegl1", "libxkbcommon0", "libglib2.0-0", "libfreetype6", "libfontconfig1"),
    "libdbus-1-3",
)
SCREEN_PACKAGES = {
    "xcb": (
        *("libx11-xcb1", "libxkbcommon-x11-0", "libxcb-cursor0", "libxcb-icccm4", "libxcb-image0"),
        *("libxcb-keysyms1", "libxcb-randr0", "libxcb-render-util0", "libxcb-shape0"),
        *("libxcb-shm0", "libxcb-sync1", "libxcb-xfixes0", "libxcb-xkb1"),
    ),
    "wayland": ("libwayland-client0", "libwayland-cursor0", "libwayland-egl1"),
}

_LOAD_QT = """
import ctypes, os, pathlib, sys
os.environ["QT_QPA_PLATFORM"] = "offscreen"
from PySide6.QtCore import QLibraryInfo
from PySide6.QtWidgets import QApplication
QApplication([])
plugins = pathlib.Path(QLibraryInfo.path(QLibraryInfo.LibraryPath.PluginsPath), "platforms")
for name in sys.argv[1:]:
    for plugin in plugins.glob(f"libq{name}*.so"):
        ctypes.CDLL(str(plugin))
"""


class CannotGoOnError(Exception):
    """The person has to do something first; the text says what."""


def venv_python() -> Path:
    """The environment's own Python."""
    return _python_in(VENV)


def has_screen() -> bool:
    """Whether a window can be shown here."""
    if sys.platform.startswith(("win", "darwin")):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def make_ready(extra: str = "", *, compiled: bool = True) -> None:
    """Make or complete the environment, with one of the project's extras if one is named.

    Args:
        compiled: whether all that is installed is compiled now, which takes as long as all else;
            if not, each module is when it is first imported.

    Raises:
        CannotGoOnError: a package could not be fetched or built.
    """
    stamp = _read_stamp()
    if stamp and (not extra or extra in stamp["extras"]):
        return
    if not venv_python().exists():
        say(f"making an environment in {VENV.name}")
        make_venv(VENV)
    extras = {extra, *(stamp["extras"] if stamp else ())} - {""}
    wanted = f"{ROOT}[{','.join(sorted(extras))}]" if extras else str(ROOT)
    say("installing packages; the first time this takes a minute or two and needs a network")
    later = [] if compiled else ["--no-compile"]
    _run_pip_showing_progress("install", *later, "--editable", wanted)
    _write_stamp({"made_of": _made_of(), "extras": sorted(extras), "libraries": []})


def make_libraries_ready(*, screen: bool) -> None:
    """See to it that Qt loads, by installing the system's libraries where that is possible.

    Raises:
        CannotGoOnError: only the person may install them; the text holds the line to run.
    """
    plugins = [_screen_plugin()] if screen and sys.platform.startswith("linux") else []
    stamp = _read_stamp()
    wanted = ["offscreen", *plugins]
    if stamp and set(wanted) <= set(stamp["libraries"]):
        return
    trouble = _qt_trouble(plugins)
    if trouble:
        packages = [
            *OFFSCREEN_PACKAGES,
            *(each for name in plugins for each in SCREEN_PACKAGES[name]),
        ]
        _install_libraries(packages, trouble)
        trouble = _qt_trouble(plugins)
    if trouble:
        raise CannotGoOnError(f"Qt still does not load; mend this and start again:\n{trouble}")
    if stamp:
        _write_stamp({**stamp, "libraries": sorted({*stamp["libraries"], *wanted})})


def make_venv(folder: Path, *, with_pip: bool = True) -> None:
    """Make an environment, without pip where this Python was shipped without the means for it."""
    command = [sys.executable, "-m", "venv", "--clear", str(folder)]
    if with_pip and subprocess.run(command, capture_output=True, check=False).returncode == 0:
        return
    made = subprocess.run([*command, "--without-pip"], capture_output=True, text=True, check=False)
    if made.returncode:
        raise CannotGoOnError(
            "This Python cannot make environments; on Debian or Ubuntu run\n"
            f"  sudo apt-get install -y python3-venv python3-pip\n{made.stdout}{made.stderr}"
        )


def pip(*arguments: str, into: Path = VENV) -> list[str]:
    """A pip command for an environment, with its own pip or else with this Python's."""
    own = subprocess.run(
        [_python_in(into), "-c", "import pip"], capture_output=True, check=False
    ).returncode
    if own == 0:
        return [str(_python_in(into)), "-m", "pip", *arguments]
    return [sys.executable, "-m", "pip", "--python", str(_python_in(into)), *arguments]


def say(text: str) -> None:
    """One line of progress, shown at once even into a pipe."""
    print(text, flush=True)


def _python_in(folder: Path) -> Path:
    return folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _made_of() -> str:
    """A digest of all that decides what is installed; a changed lint rule does not."""
    with (ROOT / "pyproject.toml").open("rb") as file:
        written = tomllib.load(file)
    deciding = [written["build-system"], written["project"], written["tool"]["hatch"], str(ROOT)]
    text = json.dumps(deciding, sort_keys=True) + (VENV / "pyvenv.cfg").read_text()
    return hashlib.sha256(text.encode()).hexdigest()


def _read_stamp() -> dict[str, Any] | None:
    try:
        stamp = json.loads(STAMP.read_text())
        return stamp if venv_python().exists() and stamp["made_of"] == _made_of() else None
    except (OSError, ValueError, KeyError):
        return None


def _write_stamp(stamp: dict[str, object]) -> None:
    STAMP.write_text(json.dumps(stamp))


def _run_pip_showing_progress(*arguments: str) -> None:
    command = pip(*arguments, "--no-input", "--disable-pip-version-check", "--progress-bar=off")
    told = []
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8"
    ) as running:
        for line in running.stdout or ():
            told.append(line)
            words = line.split()
            if words[:1] == ["Downloading"]:
                file = words[1].rsplit("/", 1)[-1]
                say(f"  fetching {' '.join(file.split('-')[:2])} {' '.join(words[2:4])}")
            elif words[:2] == ["Installing", "collected"]:
                say(f"  unpacking {len(words) - 3} packages")
    if running.returncode:
        raise CannotGoOnError(
            "".join(told[-25:]) + "The packages could not be installed; the lines above say why. "
            "Check the network and start again."
        )


def _screen_plugin() -> str:
    return "xcb" if os.environ.get("DISPLAY") else "wayland"


def _qt_trouble(plugins: list[str]) -> str:
    """What keeps Qt from loading, in the loader's words; empty if nothing does."""
    loaded = subprocess.run(
        [venv_python(), "-c", _LOAD_QT, *plugins], capture_output=True, text=True, check=False
    )
    if loaded.returncode == 0:
        return ""
    return (loaded.stderr.strip() or "it ended without a word").splitlines()[-1]


def _install_libraries(packages: list[str], trouble: str) -> None:
    install = ["apt-get", "install", "-y", "--no-install-recommends", *packages]
    if not shutil.which("apt-get"):
        raise CannotGoOnError(
            f"Qt does not load ({trouble}). Install what this system calls the following "
            f"Debian packages, then start again:\n  {' '.join(packages)}"
        )
    if os.geteuid() != 0:
        raise CannotGoOnError(
            f"Qt does not load ({trouble}). Run this line, then start again:\n"
            f"  sudo apt-get update && sudo {' '.join(install)}"
        )
    say(f"installing the system's libraries for Qt ({trouble})")
    if _apt_get(install[1:]).returncode == 0:
        return
    _apt_get(["update"])
    tried = _apt_get(install[1:])
    if tried.returncode:
        raise CannotGoOnError(
            f"{tried.stdout}{tried.stderr}\nThe libraries could not be installed; mend what the "
            f"lines above say and run this line, then start again:\n  {' '.join(install)}"
        )


def _apt_get(arguments: list[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["apt-get", *arguments],
        env={**os.environ, "DEBIAN_FRONTEND": "noninteractive"},
        capture_output=True,
        text=True,
        check=False,
    )
