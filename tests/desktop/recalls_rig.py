"""A house with a drum at a customer's, and hands on its page of recalls."""

from honeyledger.desktop.stations.recalls.view import RecallsView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.asking_rig import AskingStation, Books
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS


class Sent(Books):
    """Creek in two drums: one went to Packer, one is here."""

    def __init__(self, rig: DeskRig) -> None:
        super().__init__(rig)
        record = rig.house.record
        self.badge = record(Register("operator", {"name": "Ann Ferris"})).given[0]
        self.yard = record(Register("yard", {"name": "Creek"})).given[0]
        record(Register("vessel", {"name": "Tank", "sort": "tank"}))
        record(Register("customer", {"name": "Packer", "phone": "555 0100"}))
        record(Register("customer", {"name": "Baker"}))
        rig.now_ms += MINUTE_MS
        tag = record(Receive((Line("Creek", 20),))).given[0]
        record(Load(tag, "Tank"))
        rig.now_ms += MINUTE_MS
        self.sent, self.here = (self._drum(rig) for _ in range(2))
        record(Dispatch("Packer", (DispatchLine(self.sent),)))

    def _drum(self, rig: DeskRig) -> str:
        done = rig.house.record(Fill("Tank", Weight(net_g=60_000)))
        return next(code for code in done.codes if code.startswith("D"))


class Station(AskingStation):
    """The page of recalls of a window."""

    def __init__(self, rig: Rig) -> None:
        self.sent = Sent(rig)
        super().__init__(rig, self.sent, "recalls", "Ctrl+Shift+K")

    @property
    def view(self) -> RecallsView:
        """The page."""
        assert isinstance(self.page, RecallsView)
        return self.page
