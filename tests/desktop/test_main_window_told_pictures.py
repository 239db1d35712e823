"""Every picture of the readme and the guide can be made anew, and is shown somewhere."""

import re
from pathlib import Path

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from tests.desktop.told_pictures import FOLDER, PICTURES, write
from tests.desktop.tour import all_stops

ROOT = Path(__file__).parents[2]
PAGES = (ROOT / "README.md", *sorted((FOLDER.parent / "guide").rglob("*.md")))
_SHOWN = re.compile(r"!\[[^\]]+\]\(([^)]+\.png)\)")


def _shown() -> set[Path]:
    """Every picture a page names, where it would be looked for."""
    return {
        (page.parent / name).resolve()
        for page in PAGES
        for name in _SHOWN.findall(page.read_text(encoding="utf-8"))
    }


def test_what_the_pages_show_is_what_there_is() -> None:
    kept = {file.resolve() for file in FOLDER.iterdir()}
    assert _shown() == kept
    assert {file.stem for file in kept} == set(PICTURES)


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_of_a_page_of_the_tour_and_as_large(name: str) -> None:
    stop = PICTURES[name]
    assert stop.page in {one.page for one in all_stops()}
    shown = QImage(str(FOLDER / f"{name}.png"))
    assert (shown.width(), shown.height()) == stop.size


def test_one_is_made_anew_without_a_fault(tmp_path: Path, light: QApplication) -> None:
    assert light
    assert write(tmp_path, ["dock"]) == 0
    made = QImage(str(tmp_path / "dock.png"))
    assert (made.width(), made.height()) == PICTURES["dock"].size
    assert (tmp_path / "dock.png").stat().st_size > 10_000
