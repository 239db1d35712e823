"""A house with two seasons of pulls and a run, and the season's page on it."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.season.view import SeasonView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import SupersOn
from honeyledger.services.house import Said
from honeyledger.services.season_page import SeasonPage, season_page
from tests.desktop.rig import SOON, DeskRig, Rig

DAY_MS = 24 * 60 * 60_000


def pull(rig: DeskRig, yard: str, supers: int, grams: int) -> str:
    """Supers of a yard come in with so much honey: their pallet's tag."""
    rig.now_ms += 60_000
    done = rig.house.record(Receive((Line(yard, supers),), grams + supers * 6_000, 0))
    return next(code for code in done.given if code[0] == "G")


def fill_house(rig: DeskRig) -> str:
    """Two yards, a season past, and this one with a run that is closed; answers the drum."""
    for record in ({"name": "Ash", "colonies": 10}, {"name": "Birch", "colonies": 20}):
        rig.house.record(Register("yard", record))
    rig.house.record(Register("vessel", {"name": "Line", "sort": "line"}))
    rig.house.record(Register("vessel", {"name": "Tank", "sort": "tank", "fed_by": "Line"}))
    pull(rig, "Ash", 20, 300_000)
    rig.now_ms += 365 * DAY_MS
    rig.house.record(SupersOn("Ash", 40, "2027-06-01"))
    tag = pull(rig, "Ash", 30, 450_000)
    pull(rig, "Birch", 20, 300_000)
    done = rig.house.record(OpenRun("Line", tank="Tank"))
    run = next(code for code in done.given if code[0] == "R")
    rig.house.record(Load(tag, "Line"), Said(run=run))
    rig.now_ms += 30 * 60_000
    filled = rig.house.record(Fill("Tank", Weight(net_g=290_000)), Said(run=run))
    drum = next(code for code in filled.codes if code[0] == "D")
    rig.house.record(Measure(drum, moisture=1_860, colour=310))
    rig.house.record(CloseRun(run), Said(operator="O27-0001-X"))
    rig.now_ms += 60_000
    return drum


def page_of(rig: DeskRig, season: int = 0) -> SeasonPage:
    """The season as the ledger has it."""
    return rig.house.ask(lambda view: season_page(view, rig.now_ms, season))


class SeasonRig:
    """The window with the season's page open."""

    def __init__(self, qtbot: QtBot, folder: Path, *, filled: bool = True) -> None:
        self.rig = Rig(qtbot, folder, first=SOON)
        self.drum = fill_house(self.rig) if filled else ""
        self.rig.keys("Ctrl+9")
        found = self.rig.window.stations["season"]
        assert isinstance(found, SeasonView)
        self.view = found

    def press(self, *keys: Qt.Key) -> None:
        """Press keys where the keyboard is."""
        for key in keys:
            self.rig.key(key)

    def walk(self, *keys: Qt.Key) -> list[str]:
        """Walk through the chart: what is said at each step."""
        said = []
        for key in keys:
            QTest.keyClick(self.view.chart, key)
            said.append(self.view.chart.said())
        return said

    def close(self) -> None:
        """Close the window."""
        self.rig.close()
