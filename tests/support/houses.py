"""A house to test with: a real ledger, a clock that moves when told, short verbs."""

from collections.abc import Callable
from itertools import count
from typing import Any

from honeyledger.domain.moments import Moment, moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.trace_rows import BackTrace, ForwardTrace
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load, Wash
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House, Recorded, Said
from honeyledger.services.store import Store
from honeyledger.services.tracing import trace_back, trace_forward
from tests.support.engines import SITE

START_MS = 1_784_882_400_000  # 24 July 2026, 08:40 UTC
MINUTE_MS = 60_000


class BuiltHouse:
    """A house with a clock of its own; `margin_min` is the reach margin in minutes.

    Args:
        record: what its record says besides.
    """

    def __init__(self, margin_min: int = 0, store: Store | None = None, **record: str) -> None:
        self.now_ms = START_MS
        numbers = count(1)
        self.store = store or SITE.house()
        self.house = House(self.store, lambda: self.now_ms, lambda: f"command-{next(numbers)}")
        margin_ms = margin_min * MINUTE_MS
        usual = {"name": "Test House", "zone": "UTC", "margin_ms": margin_ms}
        self.do(Register("house", {**usual, **record}))
        self.do(Register("box", {"name": "medium", "honey_g": 14_800, "tare_g": 6_000}))

    def do(self, facts: Any, at_min: int | None = None, **said: Any) -> Recorded:
        """Record facts a minute later, or as having happened `at_min` minutes after the start."""
        self.now_ms += MINUTE_MS
        happened: Moment | None = None
        if at_min is not None:
            happened = moment_at(START_MS + at_min * MINUTE_MS, "UTC")
            self.now_ms = max(self.now_ms, happened.at_ms)
        said.setdefault("operator", "O26-0001-X")
        return self.house.record(facts, Said(happened=happened, **said))

    @property
    def now_min(self) -> int:
        """Minutes since the start."""
        return (self.now_ms - START_MS) // MINUTE_MS

    def wait(self, minutes: int) -> None:
        """Let time pass."""
        self.now_ms += minutes * MINUTE_MS

    def yard(self, name: str, **record: str | int) -> str:
        """A new yard's code."""
        return self.do(Register("yard", {"name": name, **record})).given[0]

    def vessel(self, name: str, fed_by: str = "", sort: str = "tank") -> str:
        """A new vessel's code."""
        record: dict[str, str | int] = {"name": name, "sort": sort}
        if fed_by:
            record["fed_by"] = fed_by
        return self.do(Register("vessel", record)).given[0]

    def container(self, name: str, **record: str | int) -> str:
        """A new drum container's code."""
        return self.do(Register("drum", {"name": name, **record})).given[0]

    def pull(self, yard: str, grams: int, count: int = 10, **said: Any) -> tuple[str, str]:
        """Supers of one yard arrive with so much honey: (pull's code, pallet tag)."""
        line = Line(yard=yard, count=count)
        facts = Receive((line,), gross_g=grams + count * 6_000, tare_g=0)
        done = self.do(facts, **said)
        return done.codes[0], next(code for code in done.given if code[0] == "G")

    def load(self, yard: str, grams: int, vessel: str, **said: Any) -> str:
        """Supers of a yard arrive and are loaded at once: the pull's code."""
        code, tag = self.pull(yard, grams)
        self.do(Load(tag, vessel), **said)
        return code

    def drum(self, source: str, grams: int, **said: Any) -> str:
        """A drum filled from a vessel: its code."""
        done = self.do(Fill(source, Weight(net_g=grams)), **said)
        return next(code for code in done.codes if code[0] == "D")

    def pour(self, source: str, into: str, grams: int | None = None, **said: Any) -> Recorded:
        """Honey from a vessel or drum into a vessel; all of it where no grams are given."""
        weight = Weight(net_g=grams)
        return self.do(Fill(source, weight, into=into, whole=grams is None), **said)

    def buy(self, supplier: str, grams: int) -> str:
        """A bought-in drum with all its papers: its code."""
        facts = Purchase(supplier, Weight(net_g=grams), "L 7", "AR", certificate="C 31")
        return self.do(facts).codes[0]

    def wash(self, *vessels: str, remains: str = "never", **said: Any) -> Recorded:
        """Vessels washed."""
        return self.do(Wash(vessels, remains), **said)

    def back(self, code: str) -> BackTrace:
        """Trace back."""
        return self.house.ask(lambda view: trace_back(view, code))

    def shares(self, code: str) -> dict[str, float]:
        """Shares by name of first ancestor."""
        return {row.name: row.share for row in self.back(code).ancestors}

    def forward(self, code: str) -> ForwardTrace:
        """Trace forward."""
        return self.house.ask(lambda view: trace_forward(view, code))


def refused(action: Callable[[], object]) -> str:
    """The sentence an action is refused with."""
    try:
        action()
    except Refusal as refusal:
        return refusal.text
    raise AssertionError("it was not refused")
