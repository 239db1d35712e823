"""At Qt's own scale factors nothing is wrong either: dots are not pixels there."""

import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtGui import QImage

from honeyledger.desktop.app import STATIONS
from tests.desktop.tour import scaled_stops

ROOT = Path(__file__).parents[2]


def _walk(folder: Path, scale: float, *pages: str) -> list[str]:
    """What a tour says in a process of its own: the factor is read as an application is made."""
    tour = [sys.executable, "-m", "tests.desktop.tour", str(folder), *pages]
    done = subprocess.run(
        [*tour, "--scale", str(scale)], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode in (0, 1), done.stderr
    return done.stdout.splitlines()


def _assert_whole(folder: Path, scale: float, *pages: str) -> None:
    stops = scaled_stops(scale, pages)
    assert _walk(folder, scale, *pages) == [
        *(stop.name for stop in stops),
        f"{len(stops)} pictures, 0 faults",
    ]
    for stop in stops:
        shown = QImage(str(folder / stop.name))
        # As many dots as the screen has, give or take one that the factor does not divide; what
        # asks in front of a window is smaller.
        assert 0 <= 1280 - shown.width() <= (scale if stop.page in STATIONS else 1280)
        assert 0 <= 800 - shown.height() <= (scale if stop.page in STATIONS else 800)


@pytest.mark.full
@pytest.mark.parametrize("scale", [1.25, 1.5, 1.75, 2])
def test_every_state_at_a_scale_factor_is_whole(tmp_path: Path, scale: float) -> None:
    _assert_whole(tmp_path, scale)
