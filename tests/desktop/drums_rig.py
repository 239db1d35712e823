"""A house with drums in a drum room, and hands on the drums' station."""

from honeyledger.desktop.stations.drums.view import DrumsView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.asking_rig import AskingStation, Books
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS

OPERATOR = "O26-0001-X"


class Cellar(Books):
    """Three drums of two yards, one of them read, and a tank that is empty."""

    def __init__(self, rig: DeskRig) -> None:
        super().__init__(rig)
        self.badge = self._given(Register("operator", {"name": "Ann Ferris"}))
        self.mill = self._given(Register("yard", {"name": "Mill Lane"}))
        self.bank = self._given(Register("yard", {"name": "Willow Bank"}))
        self.tank = self._given(Register("vessel", {"name": "Tank 1", "sort": "tank"}))
        self.blender = self._given(Register("vessel", {"name": "Blender", "sort": "tank"}))
        self._given(Register("room", {"name": "Drum room"}))
        self.container = self._given(Register("drum", {"name": "Drum 7", "tare_g": 18_000}))
        self.pull = self._load(self.mill)
        self.first = self.fill(300_000, container="Drum 7")
        self.second = self.fill(200_000)
        self.other_pull = self._load(self.bank)
        self.third = self.fill(250_000)
        rig.house.record(Measure(self.first, moisture=1_720, colour=310))

    def _given(self, facts: Register) -> str:
        given = self.rig.house.record(facts).given
        return given[0] if given else ""

    def _load(self, yard: str) -> str:
        # So much later that what was filled before is not in reach of it.
        self.rig.now_ms += 8 * 60 * MINUTE_MS
        done = self.rig.house.record(Receive((Line(yard, 60),), gross_g=1_500_000, tare_g=0))
        tag = next(code for code in done.given if code[0] == "G")
        self.rig.house.record(Load(tag, self.tank))
        return done.codes[0]

    def fill(self, grams: int, container: str = "") -> str:
        """A drum filled: its code."""
        self.rig.now_ms += MINUTE_MS
        done = self.rig.house.record(Fill(self.tank, Weight(net_g=grams), container=container))
        return next(code for code in done.codes if code[0] == "D")

    def reading(self, code: str, name: str) -> object:
        """The latest reading of a drum."""
        mark = self.rig.house.ask(lambda view: view.mark(code, name))
        return mark.value if mark else None


class Station(AskingStation):
    """The drums' station of a window, open on a house with drums."""

    def __init__(self, rig: Rig) -> None:
        self.cellar = Cellar(rig)
        super().__init__(rig, self.cellar, "drums", "Ctrl+5")

    @property
    def view(self) -> DrumsView:
        """The page."""
        assert isinstance(self.page, DrumsView)
        return self.page

    def figures(self) -> list[str]:
        """What stands under the table: figure and meaning."""
        return [one.accessibleName() for one in self.view.figures._shown if one.accessibleName()]
