"""The page of exposure in a window, by keys and scanner."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.exposure.view import SOURCES, WASH, ExposureView
from tests.desktop.recalls_rig import Sent
from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    rig = Rig(qtbot, tmp_path)
    yield rig
    rig.close()


def test_what_ties_most_and_what_goes_with_a_code_that_is_scanned(rig: Rig) -> None:
    sent = Sent(rig)
    rig.keys("Ctrl+Shift+E")
    rig.settle()
    view = rig.window.stations["exposure"]
    assert isinstance(view, ExposureView)
    assert view.answer.sentence.text().startswith("Were one source bad, ")
    view.show_kind(SOURCES)
    assert view.table.model.rowCount() == 1
    view.show_kind(WASH)
    assert view.table.model.rowCount() == 1
    rig.scan(sent.sent)
    rig.settle()
    assert view.figures.heading.text() == f"Were {sent.sent} called back today"
    assert not view.handle("print")
    view.code.set_text("D26-0001-9")
    view.code.submitted.emit()
    rig.settle()
    assert view.figures.heading.text() == ""
    opened: list[str] = []
    view.asks.open.connect(opened.append)
    view.cases.click()
    rig.settle()
    assert opened == ["recalls"]


def test_the_page_of_recalls_leads_to_it(rig: Rig) -> None:
    Sent(rig)
    rig.keys("Ctrl+Shift+K")
    rig.settle()
    rig.window.stations["recalls"].exposure.click()  # type: ignore[attr-defined]
    rig.settle()
    assert rig.window.shell.open_key() == "exposure"
