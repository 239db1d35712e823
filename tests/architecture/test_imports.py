"""Imports point downwards, and each fence is proved to stand by running against it."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import grimp
import pytest

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
CONTRACTS = PROJECT["tool"]["importlinter"]["contracts"]
CORE = ("honeyledger.domain", "honeyledger.ledger", "honeyledger.services")

# One wrong import for each contract: where it is planted, and what it says.
PLANTED = {
    "layers": ("domain/planted.py", "import honeyledger.services.store"),
    "acyclic": (
        "ledger/planted/one/it.py",
        "import honeyledger.ledger.planted.other.it",
        "ledger/planted/other/it.py",
        "import honeyledger.ledger.planted.one.it",
    ),
    "wiring": ("commandline/planted.py", "from honeyledger.persistence import store"),
    "pure": ("services/planted.py", "import sqlalchemy"),
    "qt": ("documents/planted.py", "from PySide6.QtGui import QImage"),
    "sql": ("desktop/widgets/planted.py", "def look() -> None:\n    import sqlite3"),
    "stations": (
        "desktop/stations/planted/view.py",
        "import honeyledger.desktop.stations.sown.view",
        "desktop/stations/sown/view.py",
        "",
    ),
    "desktop": ("desktop/models/planted.py", "import honeyledger.desktop.widgets.text"),
}
BANNED_CALLS = {
    "clock": "import datetime\n\nNOW = datetime.datetime.now()\n",
    "day": "from datetime import date\n\nDAY = date.today()\n",
    "chance": "import random\n\nLUCK = random.random()\n",
    "id": "from uuid import uuid4\n\nID = uuid4()\n",
    "sql": "import sqlalchemy\n\nASK = sqlalchemy.text('SELECT 1')\n",
    "widget": "from PySide6.QtWidgets import QLabel\n\nLABEL = QLabel\n",
}


def _lint(folder: Path) -> subprocess.CompletedProcess[str]:
    """Check the package in a folder in a process of its own, so that no other copy is seen."""
    return subprocess.run(
        [
            *(sys.executable, "-c", "from importlinter.cli import lint_imports_command as l; l()"),
            *("--no-cache", "--no-logo"),
        ],
        cwd=folder,
        env={**os.environ, "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
    )


def test_every_contract_holds() -> None:
    linted = _lint(ROOT)
    assert linted.returncode == 0, linted.stdout + linted.stderr


def test_each_contract_breaks_on_the_import_it_forbids(tmp_path: Path) -> None:
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    shutil.copytree(
        ROOT / "honeyledger",
        tmp_path / "honeyledger",
        ignore=shutil.ignore_patterns("__pycache__"),
    )
    for planted in PLANTED.values():
        for file, source in zip(planted[::2], planted[1::2], strict=True):
            path = tmp_path / "honeyledger" / file
            path.parent.mkdir(parents=True, exist_ok=True)
            for folder in [path.parent, *path.parent.parents]:
                if folder == tmp_path:
                    break
                (folder / "__init__.py").touch()
            path.write_text(source + "\n", encoding="utf-8")
    told = _lint(tmp_path).stdout
    assert {contract["id"] for contract in CONTRACTS} == set(PLANTED)
    for contract in CONTRACTS:
        assert re.search(rf"^{re.escape(contract['name'])} BROKEN", told, re.MULTILINE), told


def test_the_core_uses_only_the_standard_library() -> None:
    graph = grimp.build_graph("honeyledger", include_external_packages=True, cache_dir=None)
    foreign = [
        f"{module} imports {imported}"
        for module in sorted(graph.modules)
        if module.startswith(CORE)
        for imported in sorted(graph.find_modules_directly_imported_by(module))
        if imported.split(".")[0] not in {"honeyledger", *sys.stdlib_module_names}
    ]
    assert not foreign, "\n" + "\n".join(foreign)


def test_a_new_dependency_is_kept_out_of_the_core_too() -> None:
    pure = next(contract for contract in CONTRACTS if contract["id"] == "pure")
    named = {name.lower() for name in pure["forbidden_modules"]}
    wanted = {
        re.split(r"[^a-z0-9]", requirement.lower())[0]
        for requirement in PROJECT["project"]["dependencies"]
    }
    other_names = {"zxing": "zxingcpp"}
    assert {other_names.get(name, name) for name in wanted} - {"tzdata"} <= named


def _banned(file: str, source: str) -> bool:
    checked = subprocess.run(
        [
            *(sys.executable, "-m", "ruff", "check", "--no-cache", "--select", "TID251"),
            *("--output-format", "concise", "--stdin-filename", file, "-"),
        ],
        cwd=ROOT,
        input=source,
        capture_output=True,
        text=True,
        check=False,
    )
    assert checked.returncode in (0, 1), checked.stderr
    return "TID251" in checked.stdout


@pytest.mark.parametrize("what", BANNED_CALLS)
@pytest.mark.parametrize(
    "file",
    [
        "honeyledger/domain/planted.py",
        "honeyledger/ledger/verbs/planted.py",
        "honeyledger/services/planted.py",
        "honeyledger/desktop/stations/dock/presenter.py",
        "honeyledger/desktop/models/planted.py",
    ],
)
def test_no_clock_chance_or_widget_where_it_would_do_harm(file: str, what: str) -> None:
    assert _banned(file, BANNED_CALLS[what])


@pytest.mark.parametrize(
    ("file", "what"),
    [
        ("honeyledger/bootstrap.py", "clock"),
        ("honeyledger/bootstrap.py", "id"),
        ("honeyledger/persistence/store.py", "sql"),
        ("honeyledger/desktop/stations/dock/view.py", "widget"),
        ("honeyledger/desktop/widgets/planted.py", "widget"),
    ],
)
def test_they_are_allowed_where_they_belong(file: str, what: str) -> None:
    assert not _banned(file, BANNED_CALLS[what])
