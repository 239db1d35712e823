"""Every presenter runs without widgets: it is imported, made and asked where there are none."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.support.widgetless import IMPORTED, ROOT, WIDGETS, presenters

MADE_AT_LEAST = 14


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Any:
    command = [sys.executable, "-m", "tests.support.widgetless"]
    ran = subprocess.run(
        [*command, str(tmp_path_factory.mktemp("widgetless"))],
        cwd=ROOT,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    return json.loads(ran.stdout)


def test_every_station_s_presenter_is_among_them(told: Any) -> None:
    stations = ROOT / "honeyledger" / "desktop" / "stations"
    with_one = {path.parent.name for path in stations.rglob("*presenter.py")}
    without = {path.name for path in stations.iterdir() if (path / "view.py").is_file()}
    assert without - with_one <= {"keys", "guide"}, "what a page knows stands in a presenter"
    assert set(presenters()) <= set(told)


def test_none_needs_a_widget(told: Any) -> None:
    assert told.pop("widgets") != WIDGETS
    failed = {name: why for name, why in told.items() if why and why != IMPORTED}
    assert not failed, "\n" + "\n".join(f"{name}: {why}" for name, why in failed.items())
    made = [name for name, why in told.items() if not why]
    assert len(made) >= MADE_AT_LEAST, f"only these were made and asked: {made}"


def test_a_module_that_imports_widgets_is_found_out(tmp_path: Path) -> None:
    lines = (
        "import sys",
        "from tests.support.widgetless import _Refuse",
        "sys.meta_path.insert(0, _Refuse())",
        "import honeyledger.desktop.widgets.table",
    )
    ran = subprocess.run(
        [sys.executable, "-c", "\n".join(lines)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode != 0
    assert f"{WIDGETS} is not to be had here" in ran.stderr
