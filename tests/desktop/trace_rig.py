"""A window on two yards' drums, for tracing."""

from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS


class Traced:
    """The trace page, a drum of two yards on the floor, another sent out."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        with rig.hearing_at_the_end():
            self._tell()
        rig.keys("Ctrl+8")

    def _tell(self) -> None:
        self.tank = self.rig.told(Register("vessel", {"name": "Tank 1", "sort": "tank"})).given[0]
        self._load("Long Field", 6)
        self.sent = self._drum(90_000)
        self._load("Mill Lane", 20)
        self.drum = self._drum(280_000)
        self.rig.told(Register("customer", {"name": "Corner Shop"}))
        self.rig.told(Dispatch("Corner Shop", (DispatchLine(self.sent),)))

    def _load(self, name: str, supers: int) -> None:
        yard = self.rig.told(Register("yard", {"name": name})).given[0]
        facts = Receive((Line(yard, supers),), gross_g=supers * 21_000, tare_g=0)
        tag = next(code for code in self.rig.told(facts).given if code[0] == "G")
        self.rig.now_ms += MINUTE_MS
        self.rig.told(Load(tag, self.tank))
        self.rig.now_ms += 90 * MINUTE_MS

    def _drum(self, grams: int) -> str:
        done = self.rig.told(Fill(self.tank, Weight(net_g=grams)))
        self.rig.now_ms += 90 * MINUTE_MS
        return next(code for code in done.codes if code[0] == "D")

    @property
    def view(self) -> TraceView:
        found = self.rig.window.stations["trace"]
        assert isinstance(found, TraceView)
        return found

    def press(self, bot: QtBot, key: str) -> None:
        """Press a lot in the river."""
        geometry = self.view.river.canvas.geometry_now()
        assert geometry is not None
        spine = geometry.spine(key)
        assert spine is not None
        at = QPoint(int(spine.left) + 6, int(spine.middle))
        bot.mouseClick(self.view.river.canvas, Qt.MouseButton.LeftButton, pos=at)
        self.rig.settle()
