"""A house with two drums of one yard each, and a product to fill them into, at the filler."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.view import BottlingView
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import ChangeOver
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load, Wash
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling import BottlingSheet
from honeyledger.services.bottling_page import BottlingPage, Wanted, bottling_page
from honeyledger.services.house import Said
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS

PRODUCT = "clover-500-g"


class Drums:
    """Drum 1 with 100 kg of Mill Lane, Drum 2 with 60 kg of Long Field, an empty tank."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.operator = ""
        self.operator = self.tell(Register("operator", {"name": "Ann Ferris"}))
        rig.desk.operator = self.operator
        self.tank = self.tell(Register("vessel", {"name": "Tank 1", "sort": "tank"}))
        self.tell(Register("product", {"name": "Clover 500 g", "net_g": 500}), "")
        self.first = self.drum("Drum 1", "Mill Lane", 100_000)
        self.second = self.drum("Drum 2", "Long Field", 60_000)

    def tell(self, facts: object, letter: str = "OEYGDJ") -> str:
        """Record something at another station, a minute later: the first code it gave."""
        self.rig.now_ms += MINUTE_MS
        done = self.rig.house.record(facts, Said(operator=self.operator))
        return next((code for code in done.given if code[0] in letter), "")

    def drum(self, name: str, yard: str, grams: int) -> str:
        """A drum of one yard's honey: its lot's code."""
        code = self.tell(Register("yard", {"name": yard}))
        container = self.tell(Register("drum", {"name": name, "tare_g": 18_000}))
        tag = self.tell(Receive((Line(code, 10),), gross_g=grams + 60_000, tare_g=0), "G")
        self.tell(Load(tag, self.tank))
        drum = self.tell(Fill(self.tank, Weight(net_g=grams), container=container), "D")
        self.tell(Wash((self.tank,), "never"))
        return drum

    def started(self, feed: str = "") -> str:
        """A bottling begun elsewhere: its code."""
        code = self.tell(ChangeOver(product=PRODUCT, feed=feed or self.first), "J")
        self.rig.desk.refresh.broadcast({"ledger"})
        return code

    def page(self, wanted: Wanted = Wanted()) -> BottlingPage:  # noqa: B008 - nothing is wanted
        """The station as the house has it."""
        return self.rig.house.ask(lambda view: bottling_page(view, wanted))

    def sheet(self) -> BottlingSheet:
        """The bottling in hand, as the house has it."""
        sheet = self.page().sheet
        assert sheet is not None
        return sheet

    def wait(self, minutes: int = 5) -> None:
        """Let time pass at the filler."""
        self.rig.now_ms += minutes * MINUTE_MS

    def entries(self) -> int:
        """How many entries there are."""
        return self.rig.head()[0]

    def last(self) -> Entry:
        """The newest entry."""
        return self.rig.house.ask(lambda view: view.entries(last=1))[-1]


class Filler(Drums):
    """The bottling station of a window, open."""

    def __init__(self, rig: Rig) -> None:
        super().__init__(rig)
        self.window = rig
        self.presenter.pause.setInterval(0)
        self.open()

    def open(self) -> None:
        """Open the station."""
        self.window.keys("Ctrl+6")
        self.settle()

    @property
    def view(self) -> BottlingView:
        """The page."""
        found = self.window.window.stations["bottling"]
        assert isinstance(found, BottlingView)
        return found

    @property
    def presenter(self) -> BottlingPresenter:
        """What is behind it."""
        return self.view.presenter

    def settle(self) -> None:
        """Go on until every question is answered."""
        self.window.settle(self.presenter.pause)

    def type(self, text: str, *, enter: bool = True) -> None:
        """Type a text where the keyboard is."""
        self.window.type(text, enter=enter)
        self.settle()

    def keys(self, *named: str) -> None:
        """Press keys by name."""
        for name in named:
            self.window.keys(name)
        self.settle()

    def scan(self, code: str) -> None:
        """A hand scanner reads a code, some seconds after the one before."""
        self.rig.now_ms += MINUTE_MS
        self.window.scan(code)
        self.settle()

    def at(self) -> str:
        """The name of the field the keyboard is in."""
        focused = QApplication.focusWidget()
        return focused.objectName() if focused else ""

    def says(self) -> str:
        """What the form's slot says."""
        return self.view.form.slot.sentence()
