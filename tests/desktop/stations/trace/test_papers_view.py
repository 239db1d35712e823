"""The trace on paper and as a picture, and what is said of them."""

from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from tests.desktop.rig import SOON, Rig
from tests.desktop.trace_rig import Traced


def _pages(paper: Path) -> list[str]:
    """The words of each page."""
    document = pypdfium2.PdfDocument(paper)
    try:
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


@pytest.fixture
def traced(qtbot: QtBot, tmp_path: Path) -> Iterator[Traced]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Traced(rig)
    rig.close()


def test_the_river_is_printed_with_its_answer(traced: Traced) -> None:
    traced.rig.keys("Ctrl+P")
    assert traced.view.slot.sentence() == (
        "Trace a code first: its river and its table are what is printed."
    )
    traced.rig.scan(traced.drum)
    entry, digest = traced.rig.head()
    traced.rig.keys("Ctrl+P")
    (paper,) = traced.rig.opened
    assert paper.parent == traced.rig.folder / "papers"
    assert traced.rig.head()[0] == entry + 1, "that it was printed is on record"
    assert paper.name == f"trace-{traced.drum}-{entry}.pdf"
    (text,) = _pages(paper)
    assert "2 yards." in text
    assert "px = " in text
    assert f"Test House · head {entry} {digest[:12].upper()} · printed" in text
    assert all(row.code in text for row in traced.view.yards.model.rows())
    assert str(paper) in traced.view.slot.sentence()
    traced.rig.keys("Ctrl+P")
    (again,) = _pages(traced.rig.opened[-1])
    assert "· reprint 1" in again
    assert "reprint" not in text


def test_the_way_forward_is_printed_with_every_lot_a_customer_got(traced: Traced) -> None:
    traced.view.take_code("long field")
    traced.rig.settle()
    entry = traced.rig.head()[0]
    traced.rig.keys("Ctrl+P")
    (paper,) = traced.rig.opened
    yard = traced.view.presenter.code
    assert paper.name == f"trace-forward-{yard}-{entry}.pdf"
    text = " ".join(_pages(paper))
    assert "Where the honey of Long Field went" in text
    assert "Corner Shop" in text
    assert traced.sent in text
    assert "px = " in text, "its river is printed, too"


@pytest.mark.parametrize("forward", [False, True])
def test_a_picture_is_saved_by_key(traced: Traced, forward: bool) -> None:
    traced.view.presenter.trace(traced.drum, forward=forward)
    traced.rig.settle()
    traced.rig.keys("Ctrl+Shift+P")
    (paper,) = traced.rig.opened
    assert paper.suffix == ".png"
    assert QImage(str(paper)).width() == 2800
    prints = traced.rig.house.ask(lambda view: view.marked("printed", "paper/"))
    assert list(prints) == [], "a picture is no print"


def test_pages_that_take_a_while_are_counted(traced: Traced) -> None:
    traced.view.presenter.printing.emit(2, 9)
    assert traced.view.slot.sentence() == "Printing: page 2 of 9"


def test_a_folder_that_cannot_be_written_is_said(traced: Traced) -> None:
    (traced.rig.folder / "papers").write_text("a file stands here", encoding="utf-8")
    traced.rig.scan(traced.drum)
    traced.rig.keys("Ctrl+P")
    assert traced.view.slot.sentence().startswith("Not printed. ")
    assert traced.rig.opened == []
