"""A house with a sieve, a scale and drums, and hands on its page of checks."""

from honeyledger.desktop.stations.checks.view import ChecksView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.asking_rig import AskingStation, Books
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS


class Looked(Books):
    """The sieve was found right, and then a drum was filled through it."""

    def __init__(self, rig: DeskRig) -> None:
        super().__init__(rig)
        self.badge = rig.house.record(Register("operator", {"name": "Ann Ferris"})).given[0]
        rig.house.record(Register("yard", {"name": "Creek"}))
        rig.house.record(Register("vessel", {"name": "Tank", "sort": "tank"}))
        sieve = {"name": "Sieve", "sort": "sieve", "at": "Tank"}
        self.sieve = rig.house.record(Register("equipment", sieve)).given[0]
        self.key = f"sieve/{self.sieve}"
        rig.now_ms += MINUTE_MS
        rig.house.record(Check("Sieve", "Sieve whole", listed="sieve"))
        self.right_ms = rig.now_ms
        rig.now_ms += 90 * MINUTE_MS
        tag = rig.house.record(Receive((Line("Creek", 20),))).given[0]
        rig.house.record(Load(tag, "Tank"))
        rig.now_ms += MINUTE_MS
        done = rig.house.record(Fill("Tank", Weight(net_g=60_000)))
        self.drum = next(code for code in done.codes if code.startswith("D"))


class Station(AskingStation):
    """The page of checks of a window."""

    def __init__(self, rig: Rig) -> None:
        self.looked = Looked(rig)
        super().__init__(rig, self.looked, "checks", "Ctrl+Shift+C")

    @property
    def view(self) -> ChecksView:
        """The page."""
        assert isinstance(self.page, ChecksView)
        return self.page
