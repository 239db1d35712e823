"""A window on a house with a line, a tank, drums and pallets that wait, to work the floor with."""

from honeyledger.desktop.stations.extraction.view import ExtractionView
from honeyledger.domain.units import format_mass
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load, OpenRun, Wash
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.floor import RunSheet, run_sheet
from honeyledger.services.house import Said
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS

OPERATOR = "O26-0001-X"


class Floor:
    """The extraction station with two pallets at the door; the run is not opened yet."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        with rig.hearing_at_the_end():
            self._tell()
        rig.desk.operator = OPERATOR
        rig.keys("Ctrl+4")

    def _tell(self) -> None:
        self.rig.told(Register("operator", {"name": "Ann Ferris"}))
        self.line = self.rig.told(Register("vessel", {"name": "Line A", "sort": "line"})).given[0]
        tank = {"name": "Tank 1", "sort": "tank", "fed_by": self.line}
        self.tank = self.rig.told(Register("vessel", tank)).given[0]
        drum: dict[str, str | int] = {"name": "Drum 7", "tare_g": 18_000, "usual_g": 290_000}
        self.drum = self.rig.told(Register("drum", drum)).given[0]
        self.yard = self.rig.told(Register("yard", {"name": "Mill Lane"})).given[0]
        self.tag = self.pallet(36)
        self.later = self.pallet(20)

    def pallet(self, supers: int) -> str:
        """A pallet comes in, a minute later: its tag."""
        self.rig.now_ms += MINUTE_MS
        facts = Receive((Line(self.yard, supers),), gross_g=supers * 21_000, tare_g=0)
        return next(code for code in self.rig.told(facts).given if code[0] == "G")

    def hold(self, target: str) -> None:
        """Put a pallet's honey on hold."""
        self.rig.told(PutOnHold(target, "lab result awaited"))

    def open_run(self) -> str:
        """Open the run by the one key it takes: its code."""
        self.rig.type("")
        return self.view.presenter.run

    def loaded(self) -> str:
        """A run with a pallet in it: its code."""
        run = self.open_run()
        self.rig.scan(self.tag)
        self.wait()
        return run

    def wait(self, minutes: int = 5) -> None:
        """Let time pass on the floor."""
        self.rig.now_ms += minutes * MINUTE_MS

    def elsewhere(self) -> None:
        """Another station has loaded the first pallet and washed, all between two looks."""
        said = Said(operator=OPERATOR)
        self.rig.house.record(OpenRun(self.line), said)
        self.rig.house.record(Load(self.tag, self.line), said)
        self.rig.house.record(Wash((self.line, self.tank), "never"), said)

    @property
    def view(self) -> ExtractionView:
        """The page."""
        found = self.rig.window.stations["extraction"]
        assert isinstance(found, ExtractionView)
        return found

    def says(self) -> str:
        """What the form's slot says."""
        return self.view.floor.form.slot.sentence()

    def sheet(self, run: str) -> RunSheet:
        """A run's sheet, as the house has it."""
        sheet = self.rig.house.ask(lambda view: run_sheet(view, run, self.rig.now_ms))
        assert sheet is not None
        return sheet

    def came_out(self, run: str) -> list[str]:
        """What came out of a run, in words."""
        return [format_mass(one.grams) for one in self.sheet(run).came_out]

    def entries(self) -> int:
        """How many entries there are."""
        return self.rig.head()[0]

    def last(self) -> Entry:
        """The newest entry."""
        return self.rig.house.ask(lambda view: view.entries(last=1))[-1]
