"""A house with jars on the shelf and with customers, and the window on it, to call them back."""

from dataclasses import dataclass

from honeyledger.desktop.stations.trace.recall_view import RecallView
from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS


@dataclass
class Shop:
    """Two yards in one tank, 200 jars of it, 120 of them sent to two customers."""

    rig: Rig
    lot: str = ""
    jar: str = ""
    yards: tuple[str, ...] = ()

    def fill(self) -> "Shop":
        """Everything up to the dispatch, as told at other stations."""
        with self.rig.hearing_at_the_end():
            self._tell()
        return self

    def _tell(self) -> None:
        rig = self.rig
        tank = rig.told(Register("vessel", {"name": "Tank 1", "sort": "tank"})).given[0]
        rig.told(Register("product", {"name": "Clover", "net_g": 500}))
        for name in ("Corner Shop", "Mill Bakery"):
            rig.told(Register("customer", {"name": name}))
        self.yards = tuple(self._load(name, tank) for name in ("Long Field", "Mill Lane"))
        self.lot = rig.told(ChangeOver(product="Clover", feed=tank)).given[0]
        self._wait()
        rig.told(Bottle(self.lot, 200))
        for name, jars in (("Corner Shop", 80), ("Mill Bakery", 40)):
            self._wait()
            rig.told(Dispatch(name, (DispatchLine(self.lot, jars=jars),)))
        plain = parse_code(self.lot)
        assert isinstance(plain, Code)
        self.jar = str(make_jar_code(plain, 7))

    def _load(self, name: str, tank: str) -> str:
        yard = self.rig.told(Register("yard", {"name": name})).given[0]
        done = self.rig.told(Receive((Line(yard, 5),), gross_g=100_000, tare_g=0))
        self._wait()
        self.rig.told(Load(next(code for code in done.given if code[0] == "G"), tank))
        self._wait()
        return yard

    def _wait(self) -> None:
        self.rig.now_ms += 60 * MINUTE_MS

    @property
    def trace(self) -> TraceView:
        """The trace's page."""
        found = self.rig.window.stations["trace"]
        assert isinstance(found, TraceView)
        return found

    @property
    def recall(self) -> RecallView:
        """The page of a call back."""
        return self.trace.recall()

    def is_on_recall(self) -> bool:
        """Whether that page is the one that is seen."""
        return self.rig.window.shell.open_key() == "trace" and self.recall.widget.isVisible()
