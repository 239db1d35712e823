"""A house with drums and jars to send, and hands on the dispatch station."""

from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.stations.dispatch.fields_view import DispatchFields
from honeyledger.desktop.stations.dispatch.form_view import DispatchForm
from honeyledger.desktop.stations.dispatch.typed import NoteTyped
from honeyledger.desktop.stations.dispatch.view import DispatchView
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.text import Text
from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig, Rig
from tests.support.houses import MINUTE_MS


class Goods:
    """Two drums, three lots of jars of two products, three customers; nothing is sent yet."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.yard = self._given(Register("yard", {"name": "Mill Lane"}))
        self.tank = self._given(Register("vessel", {"name": "Tank 1", "sort": "tank"}))
        facts = Receive((Line(self.yard, 60),), gross_g=1_500_000, tare_g=0)
        done = rig.house.record(facts)
        self.pull = done.codes[0]
        self.tag = next(code for code in done.given if code[0] == "G")
        rig.house.record(Load(self.tag, self.tank))
        container = Register("drum", {"name": "Drum 7", "tare_g": 18_000})
        self.container = self._given(container)
        for name, net_g in (("Clover 500 g", 500), ("Aster 250 g", 250)):
            rig.house.record(Register("product", {"name": name, "net_g": net_g}))
        for name in ("Corner Shop", "Packer", "Hill Farm"):
            rig.house.record(Register("customer", {"name": name}))
        self.drum = self.fill(280_000, container="Drum 7")
        self.other_drum = self.fill(150_000)
        self.old = self.bottle("Clover 500 g", 100)
        self.new = self.bottle("Clover 500 g", 200)
        self.aster = self.bottle("Aster 250 g", 60)

    def _given(self, facts: Register) -> str:
        return self.rig.house.record(facts).given[0]

    def later(self) -> None:
        """A minute passes."""
        self.rig.now_ms += MINUTE_MS

    def fill(self, grams: int, container: str = "") -> str:
        """A drum filled: its code."""
        self.later()
        done = self.rig.house.record(Fill(self.tank, Weight(net_g=grams), container=container))
        return next(code for code in done.codes if code[0] == "D")

    def bottle(self, product: str, jars: int) -> str:
        """Jars of a product, labelled: their lot."""
        self.later()
        opened = self.rig.house.record(ChangeOver(product=product, feed=self.tank))
        lot = next(code for code in opened.given if code[0] == "J")
        self.rig.house.record(Bottle(lot, jars))
        return lot

    def packed(self, lot: str, jars: int, copies: int = 1) -> list[str]:
        """Cases of so many jars: their codes."""
        done = self.rig.told(Pack((PackLine(lot, jars),), copies))
        return [code for code in done.given if code[0] == "C"]

    def jar(self, lot: str, serial: int) -> str:
        """The code on one jar."""
        code = parse_code(lot)
        assert isinstance(code, Code)
        return str(make_jar_code(code, serial))

    def sent(self, customer: str, *lines: DispatchLine) -> str:
        """Something sent from another station: its note."""
        self.later()
        return self.rig.told(Dispatch(customer, lines)).given[0]

    def last(self) -> Entry:
        """The newest entry."""
        entries = self.rig.house.ask(lambda view: view.entries(last=2))
        return next(one for one in reversed(entries) if one.kind != Printed.kind)

    def entries(self) -> int:
        """How many entries there are."""
        return self.rig.head()[0]

    def said(self) -> object:
        """What was said with the newest entry."""
        return self.last().facts["said"]


class Station:
    """The dispatch station of a window, open on a house with goods."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.goods = Goods(rig)
        rig.desk.refresh.broadcast(EVERYTHING)
        rig.keys("Ctrl+7")
        self.view.presenter.pause.setInterval(0)
        self.view.others.pause.setInterval(0)

    @property
    def view(self) -> DispatchView:
        """The page."""
        found = self.rig.window.stations["dispatch"]
        assert isinstance(found, DispatchView)
        return found

    @property
    def form(self) -> DispatchForm:
        """The left panel."""
        return self.view.form

    @property
    def fields(self) -> DispatchFields:
        """Its fields."""
        return self.view.form.fields

    @property
    def slot(self) -> MessageSlot:
        """Where it speaks."""
        return self.view.form.slot

    def note(self) -> NoteTyped:
        """The note in hand."""
        return self.view.presenter.note

    def choose(self, kind: str) -> None:
        """Something else happens."""
        self.form.choose(kind)
        self.rig.settle()

    def says(self) -> str:
        """The message the slot shows."""
        shown = self.slot.shown()
        return shown.sentence if shown else ""

    def lines(self) -> list[tuple[str, str, str]]:
        """The note as the table shows it: key, state, count."""
        rows = self.view.side.tables["note"].model.rows()
        return [(row.key, row.state, row.count) for row in rows]

    def follows(self) -> list[str]:
        """What is said to follow."""
        return [one.text() for one in self.view.side.lines.findChildren(Text)]

    def notes(self) -> list[str]:
        """The notes that were recorded, newest first."""
        page = self.view.presenter.page
        return [row.code for row in page.notes] if page else []
