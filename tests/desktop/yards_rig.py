"""A house with yards, and hands on the yards' station."""

from typing import Any

from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.stations.yards.view import YardsView
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS


class Land:
    """Two yards, one of them pulled and on the map."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.badge = rig.house.record(Register("operator", {"name": "Ann Ferris"})).given[0]
        record: dict[str, str | int] = {"name": "Mill Lane", "colonies": 30, "number": "7"}
        record |= {"forage": "clover", "latitude": 494_234_500, "longitude": -988_764_000}
        self.mill = rig.house.record(Register("yard", record)).given[0]
        self.bank = rig.house.record(Register("yard", {"name": "Willow Bank"})).given[0]
        rig.now_ms += MINUTE_MS
        rig.house.record(Receive((Line(self.mill, 60),), gross_g=1_260_000, tare_g=0))

    def last(self) -> Entry:
        """The newest entry."""
        return self.rig.house.ask(lambda view: view.entries(last=1))[-1]

    def said(self) -> Any:
        """What was said with the newest entry."""
        return self.last().facts["said"]


class Station:
    """The yards' station of a window, open on a house with yards."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.land = Land(rig)
        rig.desk.operator = self.land.badge
        rig.desk.refresh.broadcast(EVERYTHING)
        rig.keys("Ctrl+1")
        self.view.presenter.asking.pause.setInterval(0)
        rig.settle()

    @property
    def view(self) -> YardsView:
        """The page."""
        found = self.rig.window.stations["yards"]
        assert isinstance(found, YardsView)
        return found

    def choose(self, kind: str) -> None:
        """Something else is written down."""
        self.view.form.choose(kind)
        self.rig.settle()

    def typed(self, key: str) -> str:
        """An answer of the form in hand."""
        return self.view.presenter.asking.now().text(key)

    def says(self) -> str:
        """What the form's slot says."""
        return self.view.form.slot.sentence()
