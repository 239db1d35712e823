"""A seeded house at work: years of receiving, extracting, bottling and shipping, said in verbs.

The shape is a guess (common practice, no source): 2.5 pulls a yard and season, runs of two to
four pallets, drums of some 290 kg, a heel of 5 to 30 %, six drums in ten bottled in blends drawn
at random from the older half of the stock, everything washed once a week, or never. One load in a
hundred is typed hours late, one pull in two hundred is amended, some fills are reversed.
"""

import heapq
import random
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from honeyledger.domain.moments import moment_at
from honeyledger.ledger.places import VESSEL, place
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import (
    Cappings,
    CloseRun,
    Heel,
    Load,
    OpenRun,
    Wash,
    WetOut,
)
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House, Recorded, Said
from honeyledger.services.store import Store

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
DAY_MS = 24 * HOUR_MS
FIRST_YEAR = 2027
EXTRACTION_WEEKS = 12
WEEKS = 50
SUPER_G = 14_800  # honey in a medium super, as sample data elsewhere has it
DRUM_G = 290_000
BOX = {"name": "medium", "honey_g": SUPER_G, "tare_g": 6_000}
Steps = Iterator[int]  # each value is the time, ms UTC, of what is done next


@dataclass(frozen=True, slots=True)
class Scale:
    """How large a house, for how many seasons, and whether it washes once a week.

    `mishaps` is how many times as often as usual loads are typed late, pulls are amended and
    entries are reversed, so that a small season has some, too.
    """

    colonies: int
    seasons: int
    washed: bool = True
    seed: int = 1
    mishaps: int = 1

    @property
    def yards(self) -> int:
        return max(4, self.colonies // 32)

    @property
    def lines(self) -> int:
        return max(1, round(self.colonies / 12_000))

    @property
    def pulls(self) -> int:
        """Pulls a season, over all lines."""
        return self.yards * 5 // 2

    @property
    def name(self) -> str:
        washed = "washed weekly" if self.washed else "never washed"
        return f"{self.colonies:,} colonies, {self.seasons} seasons, {washed}"

    def chance(self, year: int, crew: str) -> random.Random:
        """What a crew meets in a year, the same each time it is asked for."""
        return random.Random(f"{self.seed}/{year}/{crew}")

    def goes_wrong(self, chance: random.Random, usual: float) -> bool:
        """Whether a mishap happens, of which there are usually so many."""
        return chance.random() < usual * self.mishaps


@dataclass(slots=True)
class Jars:
    """A jar lot in stock."""

    code: str
    left: int


class Clock:
    """The bench's clock: it stands where the season has got to."""

    def __init__(self) -> None:
        self.now_ms = _year_ms(FIRST_YEAR)

    def __call__(self) -> int:
        return self.now_ms


def _year_ms(year: int) -> int:
    """The first of June of a year, UTC, a Monday or not: the house works six days from it."""
    return round(datetime(year, 6, 1, tzinfo=UTC).timestamp() * 1000)


def season_house(store: Store, clock: Clock) -> House:
    """A house for a season, whose commands all bring their own ids."""

    def new_id() -> str:
        raise AssertionError("a season's command has a number")

    return House(store, clock, new_id)


class Season:
    """Works through all seasons of a scale, on any house whose clock is given.

    Args:
        house: records; its clock must be `clock`.
        progress: is told after each simulated week.
    """

    def __init__(
        self,
        house: House,
        clock: Clock,
        scale: Scale,
        progress: Callable[[str], None] = lambda _: None,
    ) -> None:
        self.house = house
        self.clock = clock
        self.scale = scale
        self.progress = progress
        self.operator = ""
        self._commands = 0
        self._in_books_g: dict[str, int] = defaultdict(int)
        self.yards: list[str] = []
        self.lines: list[tuple[str, str]] = []
        self.blenders: list[str] = []
        self.customers: list[str] = []
        self.drums: list[str] = []
        self.jars: list[Jars] = []

    def work(self) -> None:
        """Everything, from the empty ledger."""
        self._register()
        for year in range(FIRST_YEAR, FIRST_YEAR + self.scale.seasons):
            self._year(year)

    def do(self, facts: Any, *, run: str = "", happened_ms: int | None = None) -> Recorded:
        """Record facts now; or as having happened before.

        Commands have numbers, so that a season that was cut short can be worked through again
        from its beginning: what is there already is answered and not written twice.
        """
        self._commands += 1
        said = Said(
            operator=self.operator,
            station="bench",
            command=f"bench-{self._commands}",
            happened=None if happened_ms is None else moment_at(happened_ms, "UTC"),
            run=run,
        )
        done = self.house.record(facts, said)
        for entry in done.entries:
            for posting in entry.postings:
                self._in_books_g[posting.place] += posting.grams
        return done

    def _register(self) -> None:
        def new(what: str, **record: str | int) -> str:
            self.clock.now_ms += 1_000
            done = self.do(Register(what, record))
            return done.given[0] if done.given else str(record["name"])

        self.clock.now_ms -= 20 * DAY_MS
        new("house", name="Bench House", zone="UTC")
        self.operator = new("operator", name="Alex Example")
        new("box", **BOX)
        new("product", name="Clover 500", net_g=500)
        new("supplier", name="Northern Honey Farms")
        self.yards = [new("yard", name=f"Yard {n:04d}") for n in range(1, self.scale.yards + 1)]
        for n in range(1, self.scale.lines + 1):
            line = new("vessel", name=f"Line {n}", sort="line")
            self.lines.append((line, new("vessel", name=f"Tank {n}", sort="tank", fed_by=line)))
        for n in range(1, self.scale.lines + 1):
            self.blenders.append(new("vessel", name=f"Blender {n}", sort="tank"))
        for n in range(1, 21 + self.scale.colonies // 400):
            self.customers.append(new("customer", name=f"Customer {n:03d}"))

    def _year(self, year: int) -> None:
        """All crews of a year at once, each step in its time."""
        self.clock.now_ms = max(self.clock.now_ms, start_ms := _year_ms(year))
        crews: list[tuple[str, Steps]] = [
            *((f"line {n}", self._line(n, year)) for n in range(self.scale.lines)),
            *((f"blender {n}", self._blender(n, year)) for n in range(self.scale.lines)),
            ("truck", self._truck(year)),
            ("weeks", self._weeks(year)),
        ]
        queue = [(next(steps), name, steps) for name, steps in crews]
        heapq.heapify(queue)
        while queue:
            at_ms, name, steps = queue[0]
            self.clock.now_ms = start_ms + at_ms
            later = next(steps, None)
            if later is None:
                heapq.heappop(queue)
            else:
                heapq.heapreplace(queue, (max(at_ms, later), name, steps))

    def _weeks(self, year: int) -> Steps:
        for week in range(WEEKS):
            yield week * 7 * DAY_MS
            self.progress(f"{year}, week {week + 1}")

    # Extraction.

    def _line(self, number: int, year: int) -> Steps:
        """Each day some runs; on Saturday the tank is emptied, and washed if the house washes."""
        chance = self.scale.chance(year, f"line {number}")
        line, tank = self.lines[number]
        days = [week * 7 + day for week in range(EXTRACTION_WEEKS) for day in range(6)]
        pulls = self.scale.pulls // self.scale.lines
        for done, day in enumerate(days):
            todo = pulls * (done + 1) // len(days) - pulls * done // len(days)
            at_ms = day * DAY_MS + 6 * HOUR_MS
            late: list[tuple[str, int]] = []
            while todo > 0:
                pallets = min(todo, chance.choice((2, 3, 3, 4)))
                todo -= pallets
                yield from self._run(chance, (line, tank), pallets, at_ms, late)
                at_ms += 165 * MINUTE_MS
            yield at_ms
            for tag, loaded_ms in late:
                self.do(Load(tag, line), happened_ms=loaded_ms)
            if day % 7 == 5:
                at_ms += 2 * HOUR_MS
                yield at_ms
                while self._held_g(line, tank) > 2 * DRUM_G:
                    self._fill(chance, tank, DRUM_G, "")
                    at_ms += 5 * MINUTE_MS
                    yield at_ms
                self._fill(chance, tank, None, "")
                if self.scale.washed:
                    self.do(Wash((line, tank), "never"))

    def _run(
        self,
        chance: random.Random,
        vessels: tuple[str, str],
        pallets: int,
        at_ms: int,
        late: list[tuple[str, int]],
    ) -> Steps:
        line, tank = vessels
        yield at_ms
        run = self.do(OpenRun(line, tank, crew="early")).given[0]
        for number in range(pallets):
            yield at_ms + (5 + 25 * number) * MINUTE_MS
            tag = self._receive(chance)
            if self.scale.goes_wrong(chance, 0.01):
                late.append((tag, self.clock.now_ms))
                continue
            self.do(Load(tag, line), run=run)
            self.do(WetOut(chance.randint(36, 42)), run=run)
        at_ms += (40 + 25 * pallets) * MINUTE_MS
        yield at_ms
        held_g = self._held_g(line, tank)
        heel_g = held_g * chance.randint(5, 30) // 100
        while held_g - heel_g > DRUM_G * 3 // 4:
            net_g = min(held_g - heel_g, DRUM_G + chance.randint(-4_000, 4_000))
            self._fill(chance, tank, net_g, run)
            held_g -= net_g
            at_ms += 5 * MINUTE_MS
            yield at_ms
        if chance.random() < 0.4:
            self.do(Cappings(line, chance.randint(60_000, 90_000)), run=run)
        held_g = self._in_books_g[place(VESSEL, tank)]
        dipped_g = max(0, held_g + chance.randint(-3_000, 3_000)) if held_g else 0
        self.do(CloseRun(run, (Heel(tank, dipped_g),)))

    def _held_g(self, *vessels: str) -> int:
        return sum(self._in_books_g[place(VESSEL, vessel)] for vessel in vessels)

    def _receive(self, chance: random.Random) -> str:
        """A pallet of one yard's supers, weighed; the tag."""
        supers = chance.randint(34, 42)
        yard = chance.choice(self.yards)
        honey_g = supers * SUPER_G * chance.randint(85, 115) // 100
        done = self.do(Receive((Line(yard, supers),), gross_g=honey_g + supers * 6_000 + 15_000))
        if self.scale.goes_wrong(chance, 0.005):
            right = chance.choice([one for one in self.yards if one != yard])
            self.do(Amend(done.codes[0], "read off the wrong sheet", yard=right))
        return next(code for code in done.given if code[0] == "G")

    def _fill(self, chance: random.Random, tank: str, net_g: int | None, run: str) -> None:
        """A drum; none of the rest where there is next to nothing."""
        if net_g is None and self._in_books_g[place(VESSEL, tank)] < 5_000:
            return
        done = self.do(Fill(tank, Weight(net_g=net_g), whole=net_g is None), run=run)
        if net_g is not None and self.scale.goes_wrong(chance, 0.003):
            self.do(Reverse(done.entries[0].id, "weighed with the strap on"), run=run)
            done = self.do(Fill(tank, Weight(net_g=net_g)), run=run)
        drum = next(code for code in done.codes if code[0] == "D")
        self.drums.append(drum)
        if chance.random() < 0.4:
            self.do(Measure(drum, moisture=chance.randint(1550, 1850)))
        if net_g is not None and chance.random() < 0.02:
            weighed = Weight(net_g=net_g + chance.randint(-900, 900))
            self.do(Reweigh(drum, weighed))

    # Blending, bottling, shipping.

    def _blender(self, number: int, year: int) -> Steps:
        """Once a week a blend and two bottlings of it; the jars stay in stock until sent."""
        chance = self.scale.chance(year, f"blender {number}")
        tank = self.blenders[number]
        drums = self.scale.pulls * 55 // 48 // self.scale.lines
        for week in range(2, WEEKS):
            share = drums * (week + 1) // WEEKS - drums * week // WEEKS
            at_ms = (week * 7 + 1) * DAY_MS + 7 * HOUR_MS + number
            yield at_ms
            yield from self._blend(chance, tank, share, at_ms)
            yield (week * 7 + 2) * DAY_MS + 7 * HOUR_MS + number
            for left in (2, 1):
                held_g = self._in_books_g[place(VESSEL, tank)]
                keep_g = held_g * chance.randint(2, 8) // 100
                jars = min(60_000, (held_g - keep_g) // left // 500)
                if jars < 20:
                    continue
                code = self.do(ChangeOver(product="clover-500", feed=tank)).given[0]
                self.clock.now_ms += 3 * HOUR_MS
                self.do(Bottle(code, jars, rejects=chance.randint(0, 6)))
                self.jars.append(Jars(code, jars))
            if self.scale.washed:
                yield (week * 7 + 5) * DAY_MS + 15 * HOUR_MS + number
                self.do(Wash((tank,), "never"))

    def _blend(self, chance: random.Random, tank: str, drums: int, at_ms: int) -> Steps:
        if chance.random() < 0.5:
            papers = {"supplier_lot": "N 4", "country": "CA", "certificate": "C 31"}
            bought = self.do(Purchase("northern-honey-farms", Weight(net_g=DRUM_G), **papers))
            self.drums.insert(0, bought.codes[0])
        for number in range(min(drums, len(self.drums))):
            yield at_ms + (number + 1) * 6 * MINUTE_MS
            older = max(1, len(self.drums) // 2)
            drum = self.drums.pop(chance.randrange(older))
            self.do(Fill(drum, into=tank, whole=True))

    def _truck(self, year: int) -> Steps:
        """Dispatch notes through the year: drums not bottled, and every jar lot in parts."""
        chance = self.scale.chance(year, "truck")
        notes = max(1, self.scale.pulls * 9 // 20 // WEEKS)
        drums_kept = self.scale.pulls * 3 // 2
        for week in range(3, WEEKS):
            for number in range(notes):
                yield (week * 7 + 3) * DAY_MS + 8 * HOUR_MS + number * 20 * MINUTE_MS
                lines = _lines_for(self, chance, drums_kept)
                if not lines:
                    continue
                note = self.do(Dispatch(chance.choice(self.customers), tuple(lines)))
                if self.scale.goes_wrong(chance, 0.003):
                    self.do(Reverse(note.entries[0].id, "the truck left without it"))
                    self.do(Dispatch(chance.choice(self.customers), tuple(lines)))


def _lines_for(season: Season, chance: random.Random, drums_kept: int) -> list[DispatchLine]:
    """What a truck takes of the stock: a few drums above those kept, and some jars."""
    lines = []
    while len(season.drums) > drums_kept and len(lines) < 3:
        lines.append(DispatchLine(season.drums.pop(chance.randrange(len(season.drums)))))
    for lot in season.jars[:4]:
        jars = min(lot.left, chance.randint(200, 420))
        lot.left -= jars
        lines.append(DispatchLine(lot.code, jars=jars))
    season.jars = [lot for lot in season.jars if lot.left]
    return lines
