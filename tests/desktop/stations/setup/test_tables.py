"""A spreadsheet's yards and receipts taken in from the window: all of it, or every reason why."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.stations.setup.tables import problems_of, take_in
from honeyledger.exchange.imports import ImportResult
from tests.desktop.drums_rig import Cellar
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def _taken(rig: DeskRig, what: str, file: str) -> Outcome[ImportResult]:
    outcomes: list[Outcome[ImportResult]] = []
    take_in(rig.desk, {"what": what, "file": file}, outcomes.append)
    rig.settle()
    return outcomes[0]


def test_yards_then_receipts_come_in(rig: DeskRig, tmp_path: Path) -> None:
    heard: list[Any] = []
    rig.desk.refresh.changed.connect(lambda changes, _by: heard.append(changes))
    yards = tmp_path / "yards.csv"
    yards.write_text("name,colonies\nMill Lane,30\nHigh Wood,20\n")
    result = _taken(rig, "yards", f'"{yards}"').value
    assert result is not None
    assert result.text == "yards.csv: 2 new yards, 0 changed."
    assert len(heard) == 1
    receipts = tmp_path / "july.csv"
    receipts.write_text("arrived,yard,supers,box\n2026-07-20 10:00,Mill Lane,36,medium\n")
    result = _taken(rig, "receipts", str(receipts)).value
    assert result is not None
    assert result.text == "july.csv: received 1 pallet with 36 supers."


def test_a_bad_table_names_every_row_and_writes_nothing(rig: DeskRig, tmp_path: Path) -> None:
    before = rig.head()
    yards = tmp_path / "yards.csv"
    yards.write_text("name,colonies\nMill Lane,many\n,20\n")
    refusal = _taken(rig, "yards", str(yards)).refusal
    assert refusal is not None
    assert [message.lead for message in problems_of(refusal)] == [
        "yards.csv, row 2, colonies: many is not a whole number: type a number of colonies, such "
        "as 24.",
        "yards.csv, row 3, name: nothing stands here. Fill it in, such as a yard's name.",
    ]
    assert rig.head() == before


def test_a_file_has_to_be_named(rig: DeskRig) -> None:
    refusal = _taken(rig, "yards", "  ").refusal
    assert refusal is not None
    assert refusal.text == ("Name the file of the table, or choose it: nothing was taken in.")
    assert problems_of(refusal) == []


def test_a_laboratorys_results_come_in(rig: DeskRig, tmp_path: Path) -> None:
    drum = Cellar(rig).first
    table = tmp_path / "report.csv"
    table.write_text(f"lot,laboratory,hmf\n{drum},Bench,<5\n", encoding="utf-8")
    result = _taken(rig, "results", str(table)).value
    assert result is not None
    assert result.text == "report.csv: the results of 1 row were kept."
