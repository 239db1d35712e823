"""The scripts that make everything from nothing: what they ask of a person, and when they rest."""

import ast
import importlib.util
import json
import os
import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGING = ROOT / "packaging"


@pytest.fixture
def scripts(monkeypatch: pytest.MonkeyPatch) -> dict[str, ModuleType]:
    """The scripts as modules, found as when they run: beside one another."""
    loaded = {}
    for name in ("environment", "lend_packages", "start", "test", "bench"):
        spec = importlib.util.spec_from_file_location(name, PACKAGING / f"{name}.py")
        assert spec is not None
        assert spec.loader is not None
        loaded[name] = importlib.util.module_from_spec(spec)
        monkeypatch.setitem(sys.modules, name, loaded[name])
        spec.loader.exec_module(loaded[name])
    return loaded


@pytest.fixture
def checkout(
    scripts: dict[str, ModuleType], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> ModuleType:
    """The environment script, looking at a checkout with an environment that is complete."""
    environment = scripts["environment"]
    for name, path in {
        "ROOT": tmp_path,
        "VENV": tmp_path / ".venv",
        "STAMP": tmp_path / ".venv" / "stamp.json",
    }.items():
        monkeypatch.setattr(environment, name, path)
    (tmp_path / "pyproject.toml").write_text((ROOT / "pyproject.toml").read_text("utf-8"))
    environment.make_venv(tmp_path / ".venv", with_pip=False)
    stamp = {"made_of": environment._made_of(), "extras": ["tests"], "libraries": ["offscreen"]}
    (tmp_path / ".venv" / "stamp.json").write_text(json.dumps(stamp))
    return environment


def _forbid(*arguments: object, **_: object) -> None:
    raise AssertionError(f"this should not have been run: {arguments}")


def test_what_runs_first_needs_nothing_but_the_standard_library() -> None:
    own = {path.stem for path in PACKAGING.glob("*.py")}
    for name in ("start", "test", "bench", "tour", "environment"):
        tree = ast.parse((PACKAGING / f"{name}.py").read_text("utf-8"))
        imported = {
            alias.name.split(".")[0]
            for node in ast.walk(tree)
            if isinstance(node, ast.Import)
            for alias in node.names
        } | {
            (node.module or "").split(".")[0]
            for node in ast.walk(tree)
            if isinstance(node, ast.ImportFrom)
        }
        assert imported <= own | set(sys.stdlib_module_names), name


def test_a_complete_environment_is_left_alone(
    checkout: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(subprocess, "run", _forbid)
    monkeypatch.setattr(subprocess, "Popen", _forbid)
    checkout.make_ready()
    checkout.make_ready("tests")
    checkout.make_libraries_ready(screen=False)


def test_a_changed_lint_rule_is_no_reason_to_install_again(
    checkout: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checkout, "_run_pip_showing_progress", _forbid)
    project = checkout.ROOT / "pyproject.toml"
    project.write_text(project.read_text().replace("line-length = 99", "line-length = 98"))
    checkout.make_ready("tests")
    project.write_text(project.read_text().replace('"reportlab', '"honey>=1", "reportlab'))
    with pytest.raises(AssertionError, match="--editable"):
        checkout.make_ready("tests")


def test_an_extra_not_yet_there_is_installed_beside_the_others(
    checkout: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checkout, "_run_pip_showing_progress", _forbid)
    with pytest.raises(AssertionError, match=re.escape("[postgresql,tests]")):
        checkout.make_ready("postgresql")


def test_all_is_compiled_when_it_is_installed_but_for_the_tests(
    checkout: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[str, ...]] = []
    monkeypatch.setattr(checkout, "_run_pip_showing_progress", lambda *words: asked.append(words))
    monkeypatch.setattr(checkout, "_read_stamp", lambda: None)
    checkout.make_ready()
    checkout.make_ready("tests", compiled=False)
    assert asked == [
        ("install", "--editable", str(checkout.ROOT)),
        ("install", "--no-compile", "--editable", f"{checkout.ROOT}[tests]"),
    ]


def test_without_a_pip_of_its_own_an_environment_borrows_this_pythons(
    checkout: ModuleType,
) -> None:
    python = checkout.venv_python()
    assert checkout.pip("list", into=checkout.VENV) == [
        *(sys.executable, "-m", "pip", "--python", str(python), "list")
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no apt-get and no root")
def test_who_may_not_install_libraries_gets_the_line_to_run(
    checkout: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checkout.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(checkout.os, "geteuid", lambda: 1000)
    with pytest.raises(checkout.CannotGoOnError) as told:
        checkout._install_libraries(["libgl1", "libegl1"], "ImportError: libGL.so.1")
    assert str(told.value) == (
        "Qt does not load (ImportError: libGL.so.1). Run this line, then start again:\n"
        "  sudo apt-get update && sudo apt-get install -y --no-install-recommends libgl1 libegl1"
    )


def test_a_system_without_apt_is_told_what_qt_needs(
    checkout: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checkout.shutil, "which", lambda name: None)
    with pytest.raises(checkout.CannotGoOnError) as told:
        checkout._install_libraries(["libgl1", "libegl1"], "ImportError: libGL.so.1")
    assert str(told.value) == (
        "Qt does not load (ImportError: libGL.so.1). Install what this system calls the "
        "following Debian packages, then start again:\n  libgl1 libegl1"
    )


def test_a_failed_install_shows_why_and_says_what_to_do(checkout: ModuleType) -> None:
    (checkout.ROOT / "pyproject.toml").write_text("[project]\n")
    with pytest.raises(checkout.CannotGoOnError) as told:
        checkout._run_pip_showing_progress("install", "--no-index", str(checkout.ROOT))
    assert "error" in str(told.value).lower()
    assert str(told.value).endswith(
        "The packages could not be installed; the lines above say why. "
        "Check the network and start again."
    )


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there is a screen")
def test_start_takes_the_terminal_where_there_is_no_screen_and_says_so(
    checkout: ModuleType,
    scripts: dict[str, ModuleType],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    command = scripts["start"]._command
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert command([]) == ["tour"]
    assert capsys.readouterr().out == (
        "There is no screen here, so the main job runs in the terminal, on the sample season.\n"
    )
    stamp = json.loads(checkout.STAMP.read_text())
    checkout.STAMP.write_text(json.dumps({**stamp, "libraries": ["offscreen", "xcb"]}))
    monkeypatch.setenv("DISPLAY", ":0")
    assert command([]) == ["window", "--sample"]
    assert command(["--terminal"]) == ["tour"]


def test_the_bench_runs_in_the_projects_own_environment(
    checkout: ModuleType, scripts: dict[str, ModuleType], monkeypatch: pytest.MonkeyPatch
) -> None:
    ran: dict[str, object] = {}

    def call(command: list[str], env: dict[str, str]) -> int:
        ran.update(command=command, root=env["PYTHONPATH"].split(os.pathsep)[0])
        return 3

    monkeypatch.setattr(subprocess, "call", call)
    monkeypatch.setattr(sys, "argv", ["bench.py", "--quick", "-o", "figures"])
    assert scripts["bench"].main() == 3
    python = str(checkout.venv_python())
    assert ran["command"] == [python, "-m", "tests.bench", "--quick", "-o", "figures"]
    assert ran["root"] == str(checkout.ROOT)


def test_an_older_python_is_told_which_one_is_needed(tmp_path: Path) -> None:
    for name in ("start", "test", "bench"):
        source = (PACKAGING / f"{name}.py").read_text("utf-8")
        (tmp_path / "old.py").write_text(
            "import sys\nsys.version_info = (3, 9, 2)\n" + source, encoding="utf-8"
        )
        ran = subprocess.run(
            [sys.executable, tmp_path / "old.py"], capture_output=True, text=True, check=False
        )
        assert ran.returncode == 1
        assert ran.stderr == (
            "Honeyledger needs Python 3.11 or newer; start this with such a Python.\n"
        )


def test_the_wheel_is_tried_with_what_it_declares_and_no_more(
    scripts: dict[str, ModuleType], tmp_path: Path
) -> None:
    needed = scripts["lend_packages"].needed("honeyledger")
    assert {"sqlalchemy", "alembic", "mako", "pyside6-essentials", "shiboken6"} <= needed
    assert not needed & {"pytest", "hypothesis", "networkx", "psycopg", "honeyledger"}
    scripts["lend_packages"].lend("click", tmp_path)
    load = "import sys; sys.path.append(sys.argv[1]); import click"
    seen = subprocess.run([sys.executable, "-I", "-S", "-c", load, tmp_path], check=False)
    assert seen.returncode == 0


def test_a_file_left_out_of_the_wheel_is_named(
    scripts: dict[str, ModuleType], tmp_path: Path
) -> None:
    built = tmp_path / "it.whl"
    left_out = "resources/fonts/OFL.txt"
    with zipfile.ZipFile(built, "w") as archive:
        for folder, within in scripts["test"].SHIPPED.items():
            for path in (ROOT / folder).rglob("*"):
                if path.is_file() and path != ROOT / left_out:
                    archive.writestr(f"{within}/{path.relative_to(ROOT / folder).as_posix()}", "")
    assert scripts["test"]._left_out(built) == [left_out]


def test_a_step_that_fails_beside_another_says_why(scripts: dict[str, ModuleType]) -> None:
    wait = scripts["test"].begin_beside("paint")
    with pytest.raises(scripts["environment"].CannotGoOnError, match="invalid choice: 'paint'"):
        wait()


def test_the_version_has_its_place_among_the_changes() -> None:
    version = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["version"]
    changes = (PACKAGING / "CHANGES.md").read_text("utf-8")
    assert re.search(rf"^## {re.escape(version)}\b", changes, re.MULTILINE)


def test_ci_runs_the_command_of_the_readme() -> None:
    assert "python3 packaging/test.py" in (ROOT / ".ci" / "run").read_text("utf-8")
