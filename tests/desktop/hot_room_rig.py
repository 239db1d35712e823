"""A house with pallets that wait, and hands on the hot room's station."""

from honeyledger.desktop.stations.hot_room.view import HotRoomView
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.asking_rig import AskingStation, Books
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS

DAY_MS = 24 * 60 * MINUTE_MS


class Waiting(Books):
    """Three pallets of two yards: one waits for days, one is wet; a room whose air nobody read."""

    def __init__(self, rig: DeskRig) -> None:
        super().__init__(rig)
        self.badge = rig.house.record(Register("operator", {"name": "Ann Ferris"})).given[0]
        self.mill = rig.house.record(Register("yard", {"name": "Mill Lane"})).given[0]
        self.bank = rig.house.record(Register("yard", {"name": "Willow Bank"})).given[0]
        rig.house.record(Register("room", {"name": "Hot room"}))
        self.old_pull, self.old = self.pallet(self.mill, 20)
        rig.now_ms += 4 * DAY_MS
        self.wet_pull, self.wet = self.pallet(self.bank, 30)
        rig.house.record(Measure(self.wet_pull, moisture=1_930))
        self.new_pull, self.new = self.pallet(self.mill, 10)

    def pallet(self, yard: str, supers: int) -> tuple[str, str]:
        """A pallet comes in, a minute later: its pull and its tag."""
        self.rig.now_ms += MINUTE_MS
        facts = Receive((Line(yard, supers),), gross_g=supers * 21_000, tare_g=0)
        done = self.rig.house.record(facts)
        return done.codes[0], next(code for code in done.given if code[0] == "G")


class Station(AskingStation):
    """The hot room's station of a window, open on a house where pallets wait."""

    def __init__(self, rig: Rig) -> None:
        self.waiting = Waiting(rig)
        super().__init__(rig, self.waiting, "hot_room", "Ctrl+3")

    @property
    def view(self) -> HotRoomView:
        """The page."""
        assert isinstance(self.page, HotRoomView)
        return self.page
