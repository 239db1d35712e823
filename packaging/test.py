"""Checks the whole project from nothing; `--full` runs the long suites too.

Every step says how long it took; the first that fails ends the run with its name.
"""

import argparse
import atexit
import os
import subprocess
import sys
import tempfile
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

if sys.version_info < (3, 11):
    sys.exit("Honeyledger needs Python 3.11 or newer; start this with such a Python.")

import environment
from environment import ROOT, CannotGoOnError, say

SHIPPED = {"honeyledger": "honeyledger", "resources": "honeyledger/_resources"}


def run(*command: str | Path, cwd: Path = ROOT, env: dict[str, str] | None = None) -> None:
    """Run a command with its output shown.

    Raises:
        CannotGoOnError: it failed.
    """
    sys.stdout.flush()
    code = subprocess.run(
        [str(word) for word in command], cwd=cwd, env=env, check=False
    ).returncode
    if code:
        raise CannotGoOnError(f"exit {code}: {' '.join(str(word) for word in command)}")


def tool(name: str, *arguments: str) -> None:
    """Run one of the environment's tools."""
    run(environment.venv_python(), "-m", name, *arguments)


def tests(*arguments: str) -> None:
    """Run pytest, in as many processes as there are cores, without a screen."""
    processes = str(min(os.cpu_count() or 1, 8))
    python = environment.venv_python()
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    # Halves that are taken from when the other has none left: what a module's tests share is
    # made once, and no process ends long before the other.
    spread = ("-n", processes, "--dist", "worksteal")
    run(python, "-m", "pytest", "-q", *spread, *arguments, env=env)


def imports() -> None:
    """Check the import contracts."""
    run(environment.venv_python().parent / "lint-imports", "--no-logo")


def wheel() -> None:
    """Build the wheel and try it where nothing but its declared dependencies can be imported."""
    with tempfile.TemporaryDirectory(prefix="honeyledger-") as name:
        place = Path(name)
        tool("hatchling", "build", "-t", "wheel", "-d", str(place))
        (built,) = place.glob("*.whl")
        missing = _left_out(built)
        if missing:
            raise CannotGoOnError(f"the wheel leaves out: {', '.join(missing)}")
        python = _install(built, place / "clean")
        _try_program(python, place)


def _left_out(built: Path) -> list[str]:
    with zipfile.ZipFile(built) as archive:
        packed = set(archive.namelist())
    return [
        path.relative_to(ROOT).as_posix()
        for folder, within in SHIPPED.items()
        for path in sorted((ROOT / folder).rglob("*"))
        if path.is_file()
        and "__pycache__" not in path.parts
        and f"{within}/{path.relative_to(ROOT / folder).as_posix()}" not in packed
    ]


def _install(built: Path, folder: Path) -> Path:
    """Install the wheel alone; its dependencies are lent, which takes no time and no network."""
    environment.make_venv(folder, with_pip=False)
    python = folder / environment.venv_python().relative_to(environment.VENV)
    install = environment.pip(
        "install", "--no-deps", "--no-index", "--quiet", str(built), into=folder
    )
    run(*install)
    packages = subprocess.check_output(
        [python, "-I", "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"], text=True
    ).strip()
    run(environment.venv_python(), ROOT / "packaging" / "lend_packages.py", packages)
    return python


def _try_program(python: Path, place: Path) -> None:
    house = str(place / "house.honey")
    where = "import honeyledger; print(honeyledger.__file__)"
    found = subprocess.check_output([python, "-I", "-c", where], cwd=place, text=True).strip()
    if not Path(found).is_relative_to(place):
        raise CannotGoOnError(f"the installed program was not the one that ran, but {found}")
    run(python, "-I", "-m", "honeyledger", "--house", house, "sample", cwd=place)
    run(python, "-I", "-m", "honeyledger", "--house", house, "audit", cwd=place)
    run(python.with_name("honeyledger"), "--help", cwd=place)


# Where tests open a house; those in tests/persistence run on both engines by themselves.
HOUSES = tuple(f"tests/{name}" for name in ("ledger", "services", "stories", "exchange"))
ON_SERVER = ("--engine", "postgresql", *HOUSES, "tests/commandline")

STEPS: dict[str, Callable[[], None]] = {
    "format": lambda: tool("ruff", "format", "--check", "."),
    "lint": lambda: tool("ruff", "check", "."),
    "imports": imports,
    "wheel": wheel,
    "tests": tests,
    "types": lambda: tool("mypy"),
    "postgresql": lambda: tests(*ON_SERVER, "-rs", "-m", "not full and not postgres"),
    "full": lambda: tests("-m", "full"),
    "full-postgresql": lambda: tests(*ON_SERVER, "-m", "full and not postgres"),
}
LONG = ("full", "full-postgresql")
# Types are begun with the first step and heard of after the tests: alone they would leave a core
# with nothing to do for half a minute. `--only types` says at once what is wrong with them.
BESIDE = {"format": "types"}


def begin_beside(name: str) -> Callable[[], None]:
    """Begin a step in a process of its own; what is given back waits for it.

    Raises:
        CannotGoOnError: when it is waited for, if it failed; it says what the step said.
    """
    command = [sys.executable, str(Path(__file__).resolve()), "--only", name]
    running = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    atexit.register(running.terminate)

    def wait() -> None:
        said, _ = running.communicate()
        if running.returncode:
            raise CannotGoOnError(said.decode(errors="replace"))

    return wait


def main() -> int:
    """Run the steps asked for."""
    asking = argparse.ArgumentParser(description=__doc__)
    asking.add_argument("--full", action="store_true", help="run the long suites too")
    asking.add_argument("--only", choices=STEPS, help="run this step alone")
    asked = asking.parse_args()
    # Hundreds of processes start in the checks: each would compile the program for itself.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    names = (
        [asked.only] if asked.only else [name for name in STEPS if name not in LONG or asked.full]
    )
    steps = {
        "environment": lambda: environment.make_ready("tests", compiled=False),
        "libraries": lambda: environment.make_libraries_ready(screen=False),
        **{name: STEPS[name] for name in names},
    }
    took = {}
    for name, step in steps.items():
        say(f"== {name}")
        start = time.monotonic()
        if BESIDE.get(name) in steps:
            steps[BESIDE[name]] = begin_beside(BESIDE[name])
        try:
            step()
        except CannotGoOnError as trouble:
            say(f"{trouble}\n== {name} FAILED after {time.monotonic() - start:.1f} s")
            return 1
        took[name] = time.monotonic() - start
        say(f"== {name} ok, {took[name]:.1f} s")
    say("all steps ok: " + ", ".join(f"{name} {seconds:.1f} s" for name, seconds in took.items()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
