"""From a jar's code to a printed recall report and the letters: by keys and one scan."""

from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.recall_rig import Shop
from tests.desktop.rig import Rig


@pytest.fixture
def shop(qtbot: QtBot, tmp_path: Path) -> Iterator[Shop]:
    rig = Rig(qtbot, tmp_path)
    yield Shop(rig).fill()
    rig.close()


def test_from_a_jars_code_to_a_printed_report_in_twelve(shop: Shop) -> None:
    rig, presses = shop.rig, 0

    def press(*keys: str) -> None:
        nonlocal presses
        rig.keys(*keys)
        presses += len(keys)

    press("Ctrl+Shift+K")
    rig.scan(shop.jar)
    assert rig.focused().startswith("What is wrong"), rig.focused()
    press("Down", "Down", "Down")
    press(*["Return"] * 6)
    assert rig.toast().lead.endswith("all stock in its scope is on hold.")
    press("Ctrl+P")
    (paper,) = list(rig.desk.papers.glob("Recall*.pdf"))
    words = _words(paper)
    for name in ("Corner Shop", "Mill Bakery", "lab result", "not yet"):
        assert name in words
    assert presses + 1 <= 12, "keys, and one scan"


def _words(paper: Path) -> str:
    document = pypdfium2.PdfDocument(paper)
    try:
        return " ".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()
