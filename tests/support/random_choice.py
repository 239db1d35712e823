"""A small house to work at random: what there is to choose from, and saying things to it."""

from collections.abc import Callable, Sequence
from random import Random
from typing import Any, TypeVar

from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.booking import NO_RUN
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.places import class_of, key_of
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from honeyledger.services.store import View
from tests.support.houses import MINUTE_MS, BuiltHouse

DESPITE = "looked at by a named person"
YARDS = ("North", "South", "East")
VESSELS = ("Line", "Fed tank", "Tank", "Bottling tank", "Melter")
CONTAINERS = ("Drum 1", "Drum 2")
NO_LOT, NO_TAG = "D26-9999-0", "G26-9999-B"

Found = TypeVar("Found")


class RandomBooks:
    """A house with a line, tanks, drums and a shop.

    `seed` chooses all that a deed leaves open, so that the same deeds in a second house say the
    same facts. What is chosen is mostly there, and now and then is not.
    """

    def __init__(self, seed: int, margin_min: int = 60) -> None:
        self.random = Random(seed)
        self.built = BuiltHouse(margin_min, gs1_prefix="9521234")
        self.said: list[tuple[Any, int, Said]] = []
        for name in YARDS:
            self.built.yard(name, colonies=30)
        line = self.built.vessel("Line", sort="line")
        self.built.vessel("Fed tank", fed_by=line)
        self.built.vessel("Tank")
        self.built.vessel("Bottling tank")
        self.built.vessel("Melter")
        for name in CONTAINERS:
            self.built.container(name, tare_g=18_000, usual_g=60_000, limit_g=200_000)
        for name in ("Ridge", "Vale", "Glass Works"):
            self.built.do(Register("supplier", {"name": name}))
        self.built.do(Register("customer", {"name": "Shop"}))
        self.built.do(Register("product", {"name": "Jar", "net_g": 500}))
        self.built.do(Register("room", {"name": "Hot room"}))
        self.set_up = self.ask(lambda view: view.head()).entry
        self.runs: list[str] = []
        self.bottlings: list[
            tuple[str, int]
        ] = []  # code, and what the counter was last said to be

    # What there is to choose from.

    def ask(self, question: Callable[[View], Found]) -> Found:
        """Ask the books."""
        return self.built.house.ask(question)

    def chance(self, part: float) -> bool:
        """Whether something happens that does so this often."""
        return self.random.random() < part

    def one(self, found: Sequence[Any], otherwise: Any) -> Any:
        """One of them, in an order that does not change; something else where there is none."""
        return self.random.choice(found) if found else otherwise

    def lots(self, kinds: str, places: Sequence[str] = ()) -> list[Lot]:
        """Lots with grams in the house, of these kinds, at these classes of places."""
        rows = self.ask(lambda view: view.on_hand(places))
        return [row.lot for row in rows if row.lot.kind in kinds and row.grams]

    def lot(self, kinds: str = "SPTDJKWX", places: Sequence[str] = ()) -> str:
        """The code of a lot that is there."""
        return self.one([lot.code for lot in self.lots(kinds, places)], NO_LOT)

    def tag(self) -> str:
        """A pallet that stands here, with supers on it."""
        rows = self.ask(lambda view: view.on_hand(["pallet"]))
        return self.one(sorted({key_of(row.place) for row in rows if row.pieces}), NO_TAG)

    def loaded_tag(self) -> str:
        """A pallet that was loaded."""
        loads = self.ask(lambda view: view.entries(("load",)))
        return self.one([str(entry.facts["said"]["pallet"]) for entry in loads], NO_TAG)

    def held_g(self, name: str) -> int:
        """What the books see in a vessel or container."""

        def held(view: View) -> int:
            records = (*view.marked("record", "vessel/"), *view.marked("record", "drum/"))
            place = next(mark.subject for mark in records if mark.value["name"] == name)
            return sum(row.grams for row in view.standing(place))

        return self.ask(held)

    def vessel(self, *, full: bool = False) -> str:
        """A vessel by its name; a full one, mostly, where that is asked for."""
        names = [name for name in VESSELS if self.held_g(name)] if full else []
        return self.random.choice(names if names and self.chance(0.9) else VESSELS)

    def grams_of(self, vessel: str) -> int:
        """A weight to take out of a vessel: about as much as there is, or quite another."""
        held = self.held_g(vessel)
        most = held if held and self.chance(0.8) else 120_000
        return self.random.randint(1, max(1, min(most, 150_000)))

    def grams(self, most: int) -> int:
        """Some grams."""
        return self.random.randint(1, most)

    def gone_to(self, place_class: str) -> list[tuple[str, int]]:
        """Lots that were sent, with their jars."""
        rows = self.ask(lambda view: view.held_at(place_class))
        codes = self.ask(lambda view: view.lots([row.lot for row in rows]))
        return [(codes[row.lot].code, row.pieces) for row in rows if row.grams > 0]

    # Saying.

    def say(self, facts: Any, run: str = "") -> list[str]:
        """Say facts now, or hours late, or with an unsure time; a refusal changes nothing."""
        self.built.now_ms += self.random.randint(1, 40) * MINUTE_MS
        late_min = self.random.choice((0, 0, 0, 0, 30, 300))
        happened = moment_at(self.built.now_ms - late_min * MINUTE_MS, "UTC")
        unsure_ms = self.random.choice((0, 0, 0, 0, 0, 90)) * MINUTE_MS
        command = f"random-{len(self.said)}"
        said = Said("O26-0001-X", "floor", command, happened, run, unsure_ms)
        before = self.ask(lambda view: view.head())
        try:
            done = self.built.house.record(facts, said)
        except Refusal:
            assert self.ask(lambda view: view.head()) == before
            return []
        self.said.append((facts, self.built.now_ms, said))
        return list(done.given)

    def a_run(self) -> str:
        """The last run, the one that is open, or none."""
        return self.random.choice(["", NO_RUN, *self.runs[-1:]])

    def runless(self) -> list[int]:
        """Loads and draws that carry no run's code."""
        entries = self.ask(lambda view: view.entries(("load", "fill", "cappings")))
        return [entry.id for entry in entries if not entry.act.run]

    def place_names(self, lot_id: int) -> list[str]:
        """The names of a lot's source places."""

        def names(view: View) -> list[str]:
            places = [row.place for row in view.holdings(lot_id)]
            kept = [place for place in places if class_of(place) in ("yard", "supplier")]
            marks = [view.mark(place, "record") for place in kept]
            return [str(mark.value["name"]) for mark in marks if mark]

        return self.ask(names)
