"""What a station knows of its printers, and the page that shows what one needs."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.printing import Paper
from honeyledger.desktop.sending import printers
from honeyledger.desktop.stations.setup.station_printers import StationPrinters
from honeyledger.documents.printers import LABELS, StationPapers, Way, write_printers
from honeyledger.documents.stock import Printer
from honeyledger.domain.refusals import Refusal
from honeyledger.services.setup_page import SetupPage, setup_page
from tests.desktop.rig import DeskRig
from tests.support.printing import page_sizes_mm, stocks, strokes_mm


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    made.desk.printers = tmp_path / "printers.toml"
    yield made
    made.close()


def _page(rig: DeskRig) -> SetupPage:
    return rig.house.ask(setup_page)


def _asked(rig: DeskRig) -> tuple[StationPrinters, Outcome[object]]:
    station, outcomes = StationPrinters(rig.desk), list[Outcome[object]]()
    station.ask(outcomes.append)
    rig.settle()
    return station, outcomes[0]


def test_it_knows_the_stocks_shipped_and_what_is_kept(rig: DeskRig) -> None:
    papers = StationPapers({}, {LABELS: Way("Roll", "roll-70x40")})
    assert rig.desk.printers is not None
    write_printers(papers, rig.desk.printers)
    station, _ = _asked(rig)
    assert station.papers == papers
    assert station.stocks(_page(rig)).names == stocks().names


def test_the_system_is_asked_once_for_its_printers(rig: DeskRig) -> None:
    station, _ = _asked(rig)
    assert not station.is_asked
    outcomes: list[Outcome[object]] = []
    for _ in range(2):
        station.ask_names(outcomes.append)
        rig.settle()
    assert [outcome.value for outcome in outcomes] == [printers()]
    assert station.names == printers()


def test_a_file_that_cannot_be_read_is_told(rig: DeskRig) -> None:
    assert rig.desk.printers is not None
    rig.desk.printers.write_text("[printers", "utf-8")
    _, outcome = _asked(rig)
    assert outcome.refusal is not None
    assert outcome.refusal.key == "printers-unreadable"


def test_the_calibration_page_is_on_the_stock_that_goes_to_the_printer(rig: DeskRig) -> None:
    station, _ = _asked(rig)
    station.papers = StationPapers({}, {LABELS: Way("My roll/1", "roll-70x40")})
    outcomes: list[Outcome[Paper]] = []
    typed = {"name": "My roll/1", "paper": "roll", "shift_x_mm": "0.5"}
    station.calibrate(typed, _page(rig), outcomes.append)
    rig.settle()
    paper = outcomes[0].value
    assert paper is not None
    file = paper.file
    assert file == rig.desk.papers / "Calibration My roll_1.pdf"
    assert page_sizes_mm(file.read_bytes()) == [pytest.approx((70, 40), abs=0.01)]
    assert strokes_mm(file.read_bytes())[0][0] == pytest.approx(0.5, abs=0.01)


def test_without_a_stock_on_its_paper_there_is_no_page(rig: DeskRig) -> None:
    station, _ = _asked(rig)
    with pytest.raises(Refusal) as refused:
        station.calibrate({"name": "P", "paper": "sheet"}, _page(rig), lambda _outcome: None)
    assert refused.value.field == "paper"


def test_what_cannot_be_kept_changes_nothing(rig: DeskRig) -> None:
    station, _ = _asked(rig)
    (rig.folder / "taken").write_text("")
    rig.desk.printers = rig.folder / "taken" / "printers.toml"
    outcomes: list[Outcome[object]] = []
    station.keep(StationPapers().with_printer(Printer("P", "roll", 203)), outcomes.append)
    rig.settle()
    assert outcomes[0].refusal is not None
    assert station.papers == StationPapers()
