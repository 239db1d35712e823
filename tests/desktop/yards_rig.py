"""A house with yards, and hands on the yards' station."""

from honeyledger.desktop.stations.yards.view import YardsView
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.asking_rig import AskingStation, Books
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS


class Land(Books):
    """Two yards, one of them pulled and on the map."""

    def __init__(self, rig: DeskRig) -> None:
        super().__init__(rig)
        self.badge = rig.house.record(Register("operator", {"name": "Ann Ferris"})).given[0]
        record: dict[str, str | int] = {"name": "Mill Lane", "colonies": 30, "number": "7"}
        record |= {"forage": "clover", "latitude": 494_234_500, "longitude": -988_764_000}
        self.mill = rig.house.record(Register("yard", record)).given[0]
        self.bank = rig.house.record(Register("yard", {"name": "Willow Bank"})).given[0]
        rig.now_ms += MINUTE_MS
        rig.house.record(Receive((Line(self.mill, 60),), gross_g=1_260_000, tare_g=0))


class Station(AskingStation):
    """The yards' station of a window, open on a house with yards."""

    def __init__(self, rig: Rig) -> None:
        self.land = Land(rig)
        super().__init__(rig, self.land, "yards", "Ctrl+1")

    @property
    def view(self) -> YardsView:
        """The page."""
        assert isinstance(self.page, YardsView)
        return self.page
