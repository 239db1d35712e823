"""Several days of work in a simulated honey house, by a seeded crew: supers in, drums filled.

Each deed is done in the world of `physics` at its true time, and noted with the crew, which
writes it down in its own way. What is bottled, poured and sent is in `bottling_days`.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from random import Random
from typing import Any

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.places import key_of
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dock import Count, Join, Receive, Split
from honeyledger.ledger.verbs.dock import Line as PulledLine
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, Wash
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded
from honeyledger.services.store import View
from tests.support.crew import Crew, Habits, Note
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse
from tests.support.physics import (
    Bottling,
    Content,
    Drum,
    Line,
    Pallet,
    Spot,
    Stack,
    Vessel,
    weight,
)

DAY_MS = 24 * 60 * MINUTE_MS
MIDNIGHT_MS = START_MS - START_MS % DAY_MS + DAY_MS  # of the first day of work
DRUM_G = 60_000


@dataclass(eq=False)
class Checked:
    """A code and what truly stood under it: `code` is asked for when all is written."""

    what: str
    code: Callable[[], str]
    sources: frozenset[str]


@dataclass(eq=False)
class World:
    """The house as it truly is, and its names in the books."""

    lines: list[Line]
    tanks: list[Vessel]
    bottling_tank: Vessel
    yards: list[str]
    suppliers: list[str] = field(default_factory=list)
    pallets: list[Pallet] = field(default_factory=list)
    drums: list[Drum] = field(default_factory=list)
    barrels: list[tuple[Content, Spot]] = field(default_factory=list)
    bottlings: list[Bottling] = field(default_factory=list)
    checked: list[Checked] = field(default_factory=list)

    @property
    def vessels(self) -> list[Vessel]:
        """Everything honey can be drawn from that is registered."""
        return [*self.lines, *self.tanks, self.bottling_tank]

    def watch(self, what: str, content: Content) -> Content:
        """From now on this content is compared with the reach of its code."""
        self.checked.append(Checked(what, lambda: content.code, content.sources))
        return content


def build_world(built: BuiltHouse, random: Random) -> World:
    """One or two lines, each feeding no tank, one, or two; a bottling tank; some containers."""
    yards = [built.yard(f"Yard {number}") for number in range(1, random.randint(5, 9))]
    lines: list[Line] = []
    tanks: list[Vessel] = []
    for number in range(1, random.choice((2, 3))):
        code = built.vessel(f"Line {number}", sort="line")
        fed = []
        for _ in range(random.choice((0, 1, 1, 2))):
            name = f"Tank {len(tanks) + 1}"
            fed.append(Vessel(name, built.vessel(name, fed_by=code)))
            tanks.append(fed[-1])
        lines.append(Line(f"Line {number}", code, tuple(fed)))
    spare = Vessel("Spare tank", built.vessel("Spare tank"))
    bottling_tank = Vessel("Bottling tank", built.vessel("Bottling tank"))
    world = World(lines, [*tanks, spare], bottling_tank, yards)
    for number in range(1, 6):
        name = f"Drum {number}"
        code = built.container(name, usual_g=DRUM_G, limit_g=4 * DRUM_G)
        world.drums.append(Drum(code))
    built.do(Register("supplier", {"name": "Trader"}))
    built.do(Register("customer", {"name": "Shop"}))
    built.do(Register("product", {"name": "Jar", "net_g": 500}))
    world.suppliers.append("trader")
    return world


class Floor:
    """Deeds of the dock and the extraction floor."""

    def __init__(self, seed: int, habits: Habits, margin_min: int = 60) -> None:
        self.random = Random(seed)
        self.built = BuiltHouse(margin_min)
        self.built.now_ms = MIDNIGHT_MS
        self.world = build_world(self.built, self.random)
        self.habits = habits
        self.crew = Crew(self.built, habits, self.random)
        self.now_ms = MIDNIGHT_MS
        self.run_code = ""

    def note(
        self, sheet: str, keys: set[object], facts: Callable[[], Any | None], **more: Any
    ) -> Note:
        """Note a deed done now."""
        note = Note(self.now_ms, sheet, frozenset(keys), facts, **more)
        return self.crew.add(note)

    def at_once(self, facts: Any) -> Recorded:
        """Record a deed now, on the spot: what prints a tag cannot wait."""
        self.built.now_ms = max(self.built.now_ms, self.now_ms)
        return self.crew.say(facts)

    def chance(self, part: float) -> bool:
        """Whether something happens that does so this often."""
        return self.random.random() < part

    def pick(self, things: list[Any]) -> Any:
        """One of several, or None of none."""
        return self.random.choice(things) if things else None

    # The dock.

    def receive(self) -> None:
        """A pallet of one or two yards; now and then one yard is written down wrongly."""
        yards = self.random.sample(self.world.yards, self.random.choice((1, 1, 2)))
        stacks = [
            Stack(yard, self.random.randint(3, 12), self.random.uniform(8_000, 14_000))
            for yard in yards
        ]
        pallet = Pallet(stacks)
        claimed = {yard: yard for yard in yards}
        if self.chance(self.habits.mistakes):
            others = [yard for yard in self.world.yards if yard not in yards]
            claimed[yards[0]] = self.random.choice(others)
        lines = tuple(PulledLine(claimed[stack.yard], stack.count) for stack in stacks)
        true_g = sum(stack.count * stack.each_g for stack in stacks)
        gross_g = None
        if self.chance(0.7):
            off = self.random.uniform(0.75, 1.25)
            gross_g = int(true_g * off) + 6_000 * pallet.count
        done = self.at_once(Receive(lines, gross_g=gross_g, tare_g=0))
        pallet.tag = next(code for code in done.given if code[0] == "G")
        pallet.pulls = dict(zip(yards, done.codes, strict=True))
        self.world.pallets.append(pallet)
        for yard, written in claimed.items():
            if yard != written:
                self._find_wrong_yard(pallet.pulls[yard], yard)

    def _find_wrong_yard(self, pull: str, yard: str) -> None:
        """The wrong yard is found in the evening, or days later."""
        note = self.note("loads", {pull}, lambda: Amend(pull, "wrong yard typed", yard=yard))
        note.due_ms += self.random.choice((0, 1, 2)) * DAY_MS + 6 * 60 * MINUTE_MS
        note.typed_ms = note.unsure_ms = 0

    def split(self) -> None:
        """Some supers go onto a tag of their own."""
        pallet = self.pick([one for one in self.world.pallets if one.count > 4])
        if pallet is None or self._has_open_notes(pallet):
            return
        stack = self.random.choice(pallet.stacks)
        count = self.random.randint(1, stack.count)
        if count == pallet.count:
            return
        pull = pallet.pulls[stack.yard]
        try:
            self.at_once(Count(pallet.tag, stack.count, pull))
        except Refusal:
            return  # the books have none of that yard left there; the supers stay where they are
        done = self.at_once(Split(pallet.tag, count, pull))
        each_g = stack.each_g
        pallet.take(stack.yard, count)
        part = Pallet([Stack(stack.yard, count, each_g)], pulls={stack.yard: pull})
        part.tag = next(code for code in done.given if code[0] == "G")
        self.world.pallets.append(part)

    def _has_open_notes(self, thing: object) -> bool:
        return any(n.state == "waiting" and thing in n.keys for n in self.crew.notes)

    def join(self) -> None:
        """One pallet is put onto another, noted when there is time."""
        if len(self.world.pallets) < 2:
            return
        one, onto = self.random.sample(self.world.pallets, 2)
        if set(one.pulls) & set(onto.pulls) or not one.count or not onto.count:
            return
        if self._has_open_notes(one) or self._has_open_notes(onto):
            return
        onto.stacks += one.stacks
        onto.pulls |= one.pulls
        one.stacks = []
        self.world.pallets.remove(one)
        self.note("loads", {one, onto}, lambda: Join(one.tag, onto.tag))

    # The line.

    def load(self) -> None:
        """A pallet, or some supers of it, go into a line."""
        pallet = self.pick(self.world.pallets)
        if pallet is None:
            return
        line = self.random.choice(self.world.lines)
        whole = pallet.count < 2 or self.chance(0.65)
        count, pull, there = None, "", 0
        if whole:
            for stack in list(pallet.stacks):
                line.load(pallet.take(stack.yard, stack.count))
            self.world.pallets.remove(pallet)
        else:
            stack = self.random.choice(pallet.stacks)
            count = self.random.randint(1, min(stack.count, pallet.count - 1))
            pull = pallet.pulls[stack.yard] if self.chance(0.5) else ""
            there = sum(one.count for one in pallet.stacks if one.yard == stack.yard)
            line.load(pallet.take(stack.yard, count))
        facts = Load(pallet.tag, line.code, count, pull, despite_hold="looked at")
        if self.chance(self.habits.never):
            self.crew.never_scanned += 1
        elif whole and self.chance(self.habits.forgotten):
            self._find_forgotten(facts, pallet, line)
        elif self.chance(self.habits.mistakes / 2) and len(self.world.lines) > 1:
            self._load_wrongly(facts, pallet)
        else:
            self.note("loads", {pallet, line}, lambda: facts).there = there

    def _load_wrongly(self, facts: Load, pallet: Pallet) -> None:
        """Another line is written down, and amended later."""
        wrong = next(line.code for line in self.world.lines if line.code != facts.vessel)
        entries: list[int] = []

        def amended() -> Amend | None:
            if not entries:
                return None
            return Amend(load=entries[0], vessel=facts.vessel, reason="it was the other line")

        self.note(
            "loads",
            {pallet},
            lambda: replace(facts, vessel=wrong),
            done=lambda recorded: entries.append(recorded.entries[0].id),
        )
        later = self.note("loads", {pallet}, amended)
        later.due_ms += self.random.choice((0, 1)) * DAY_MS
        later.typed_ms = later.unsure_ms = 0

    def _find_forgotten(self, facts: Load, pallet: Pallet, line: Line) -> None:
        """The pallet is found days later: for unknown honey first, else as a late load."""
        places = {line.code, *(tank.code for tank in line.tanks)}

        def unknown(view: View) -> str:
            for mark in view.marked("hold", "hold/"):
                lot = view.lot_by_code(str(mark.value["target"]))
                if lot and key_of(str(lot.attributes.get("place"))) in places:
                    sources = {row.place: row.grams for row in view.holdings(lot.id)}
                    if sources.get("unknown", 0) < 0:
                        return lot.code
            return ""

        def found() -> Amend | Load:
            code = self.built.house.ask(unknown)
            if code:
                return Amend(code, "the pallet was found empty", pallet=facts.pallet)
            return facts

        note = self.note("loads", {pallet, line}, found, only_typed=True)
        note.due_ms += self.random.choice((1, 2)) * DAY_MS

    def pump(self) -> None:
        """The sump goes over into a tank; nobody writes it down."""
        line = self.random.choice(self.world.lines)
        if line.tanks:
            line.pump(self.random.choice(line.tanks))

    def weigh_cappings(self) -> None:
        """A barrel of cappings is full."""
        line = self.random.choice(self.world.lines)
        honey = line.take_barrel()
        if weight(honey) < 3_000:
            line.barrel = honey
            return
        spot = Spot()
        spot.pour(honey)
        content = self.world.watch("cappings", Content(spot.sources))
        facts = Cappings(line.code, int(weight(honey)))
        self.note("cappings", {line, content}, lambda: facts, done=self.label(content))
        self.world.barrels.append((content, spot))

    def label(self, content: Content, drum: Drum | None = None) -> Callable[[Recorded], None]:
        """What is learned from a record that makes a lot: its code, written on the label."""

        def learned(recorded: Recorded) -> None:
            content.code = next(code for code in reversed(recorded.codes) if code[0] in "DWXP")
            if drum is not None and (drum.content is content or not drum.label):
                drum.label = content.code

        return learned

    def wash(self) -> None:
        """A line, tanks, or both are washed; noted or not."""
        line = self.random.choice(self.world.lines)
        washed: list[Vessel] = self.random.choice(
            (
                [line],
                [line, *line.tanks],
                [self.random.choice(self.world.tanks)],
                [self.world.bottling_tank],
            )
        )
        if line in washed and line.tanks and self.chance(0.7):
            line.pump(self.random.choice(line.tanks))
        for vessel in washed:
            vessel.wash()
        if self.chance(self.habits.wash_notes):
            codes = tuple(vessel.code for vessel in washed)
            remains = self.random.choice(("never", "rinse", "discarded"))
            self.note("washes", set(washed), lambda: Wash(codes, remains))

    def run(self) -> None:
        """A run is opened, or the open one is closed by dipping a tank."""
        line = self.random.choice(self.world.lines)
        if not self.run_code:
            self.run_code = self.at_once(OpenRun(line.code)).given[0]
            return
        vessel = self.random.choice(self.world.vessels)
        dipped = int(vessel.total_g * self.random.uniform(0.9, 1.1))
        heels = (Heel(vessel.code, dipped),) if self.chance(0.8) else ()
        self.at_once(CloseRun(self.run_code, heels))
        self.run_code = ""
