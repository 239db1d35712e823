"""The sample's extraction floor: runs with their loads, drums, cappings and heels.

What comes out of a run is a chosen part of what its pallets were reckoned to hold, so that the
scales stand against the estimates as they do in practice (about 0.97; common practice, no source).
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from sample_chance import Chance, Tables, kg, step
from sample_crop import Pallet

LINE, SUMP, TANK = "Line A", "Sump", "Settling tank"
FRAMES_AN_HOUR = 235
CAPPINGS = 0.1115  # of what goes in: a tenth as honey, and the wax
BARREL_G, DRAINED = 140_000, 0.765
USUAL_DRUM_G, LEAST_HEEL_G = 293_200, 24_000
TOTE_G, PAIL_G = 1_395_000, 27_200
SHOWN = timedelta(minutes=1)


@dataclass
class Load:
    """A pallet, or so many of its supers, going into the line; `book_g` as the dock has it."""

    pallet: Pallet
    supers: int
    book_g: int
    name: str = ""
    whole: bool = True
    missed: bool = False


@dataclass
class Run:
    """A run as it went: what came out is `ratio` of what the books saw going in."""

    number: int
    day: datetime
    loads: list[Load]
    ratio: float
    start: timedelta = timedelta(hours=7, minutes=20)
    pails: int = 0
    tote: str = ""
    unwashed: bool = False
    to_follow: tuple[int, ...] = ()
    part: bool = False
    top_up: tuple[str, int] = ("", 0)
    barrels: bool = True
    timeless: bool = False
    twice: bool = False
    leaves_g: tuple[int, int] = (0, 0)
    stops: datetime | None = None
    crew: str = "Jory, Cass"
    pooled: str = ""


@dataclass
class Filled:
    """A drum, tote or pail as filled."""

    container: str
    net_g: int
    run: int
    time: datetime
    moisture: int
    colour: int
    sort: str = "drum"
    weighed_g: int = 0

    @property
    def sold_g(self) -> int:
        """Its net as it was weighed last."""
        return self.weighed_g or self.net_g


@dataclass
class Event:
    """A row to be written at a time; `cells` go into the file's row as they are."""

    time: datetime
    file: str
    cells: dict[str, object]
    late: bool = False


@dataclass
class Floor:
    """The line and tank as they are, from one run to the next."""

    tables: Tables
    chance: Chance
    tares: dict[str, int]
    tank_g: int = 0
    drainer_g: int = 0
    barrel: int = 0
    drum: int = 0
    pail: int = 0
    waiting: list[tuple[int, int]] = field(default_factory=list)
    drained: list[tuple[int, int]] = field(default_factory=list)
    set_aside: list[tuple[int, int]] = field(default_factory=list)
    filled: list[Filled] = field(default_factory=list)
    last: datetime = datetime(2026, 7, 1)  # noqa: DTZ001  The house's zone is in house.csv.
    colour: float = 200.0
    moisture: float = 1760.0
    ratios: list[float] = field(default_factory=list)

    def next_drum(self) -> str:
        """Give the next empty drum."""
        self.drum += 1
        return f"Drum {self.drum}"

    def net_g(self) -> int:
        """What goes into a drum."""
        return step(self.chance.normal(USUAL_DRUM_G + 300, 2_500, 286_000, 300_000), 100)

    def note(self, event: Event, typed: datetime | None = None, about: int = 0) -> datetime:
        """Write an event's row at its own minute, or as typed later."""
        when = event.time.replace(second=0)
        if typed is None:
            when = self.tables.free(max(when, self.last + SHOWN))
            self.last = when
        cells = {**event.cells, "when": when}
        if typed is not None:
            self.last = self.tables.free(max(typed, self.last + SHOWN))
            cells["typed"] = self.last
        if about:
            cells["about"] = about
        self.tables.add(event.file, **cells)
        return when

    def pour_barrels(self, day: datetime, hour: float = 6.3) -> None:
        """Last night's drained honey goes back into the tank before the run is opened."""
        time = day + timedelta(hours=hour)
        for number, net_g in self.waiting:
            drained_g = step(net_g * DRAINED, 100)
            time += timedelta(minutes=4)
            cells: dict[str, object] = {
                "what": "pour",
                "source": f"barrel {number}",
                "into": TANK,
                "net": kg(drained_g),
            }
            self.note(Event(time, "drums", cells))
            self.tank_g += drained_g
            self.drained.append((number, net_g - drained_g))
        self.waiting = []

    def work(self, run: Run) -> None:
        """Work a run from opening to closing, and leave its heel in the tank."""
        opened = run.day + run.start
        self._fit(run)
        heel = self.tank_g
        events = sorted(self._events(run, opened), key=lambda event: event.time)
        cells: dict[str, object] = {
            "run": run.number,
            "what": "open",
            "vessel": LINE,
            "crew": run.crew,
        }
        events.insert(0, Event(opened, "floor", cells))
        if run.pooled:
            pool: dict[str, object] = {"run": run.number, "what": "pool", "why": run.pooled}
            events.insert(1, Event(opened + SHOWN, "floor", pool))
        self._paper(run, events, heel)
        evening = run.day + timedelta(hours=20, minutes=5) if run.timeless else None
        for event in events:
            if run.stops is None or event.time < run.stops:
                typed = evening or (
                    run.day + timedelta(hours=19, minutes=45) if event.late else None
                )
                self.note(event, typed, 240 if run.timeless else 0)

    def _paper(self, run: Run, events: list[Event], heel: int) -> None:
        """With loads on paper, drums beyond what the books see wait for the next morning."""
        if not any(event.late for event in events):
            return
        seen, nets = heel, {one.container: one.net_g for one in self.filled}
        books = {str(load.name or load.pallet.number): load.book_g for load in run.loads}
        morning = run.day + timedelta(days=1, hours=6, minutes=40)
        waits = False
        for event in events:
            what = event.cells["what"]
            if what == "load" and not event.late:
                seen += books[str(event.cells["pallet"])]
            elif what == "fill":
                net_g = nets[str(event.cells["container"])]
                waits = waits or seen - net_g < 40_000
                seen -= net_g
            if waits and what in ("fill", "close", "wet out"):
                morning += timedelta(minutes=7)
                event.time = morning
        events.sort(key=lambda event: event.time + timedelta(hours=7 * event.late))

    def _fit(self, run: Run) -> None:
        """Let the run end with the heel asked for, by shifting its ratio a little."""
        low, high = run.leaves_g
        if not high:
            return
        for shift in range(200):
            for ratio in (run.ratio + shift / 1000, run.ratio - shift / 1000):
                rest = self._prime_g(run, ratio) - _set_aside_g(run)
                if low <= rest % USUAL_DRUM_G <= high:
                    run.ratio = ratio
                    return

    def aim(self, run: Run, following: Run) -> None:
        """Let a run leave as much as makes the next one end with an almost empty tank."""
        poured = sum(step(net_g * DRAINED, 100) for net_g in self._barrels(run))
        book = self._book_g(following)
        low, high = following.leaves_g
        for heel in range(30_000, 310_000, 1_000):
            out = round(following.ratio * (heel + poured + book)) - _foam_g(book)
            if low <= out % USUAL_DRUM_G <= high:
                run.leaves_g = (heel - 6_000, heel + 6_000)
                return

    def _book_g(self, run: Run) -> int:
        return sum(load.book_g for load in run.loads if not load.missed)

    def _prime_g(self, run: Run, ratio: float) -> int:
        """What leaves by the tank or stays there: all that comes out less cappings and foam."""
        book = self._book_g(run)
        barrels = self._barrels(run) if run.barrels else []
        return round(ratio * (self.tank_g + book)) - sum(barrels) - _foam_g(book)

    def _barrels(self, run: Run) -> list[int]:
        """The barrels that come full in this run; what is in the next one stays overnight."""
        made = self.drainer_g + round(self._book_g(run) * CAPPINGS)
        spread = [(-3, 4, -1, 2, -2)[(self.barrel + place) % 5] for place in range(6)]
        nets = [BARREL_G + 1_500 * one for one in spread]
        full: list[int] = []
        while made - sum(full) >= nets[len(full)]:
            full.append(nets[len(full)])
        return full

    def _events(self, run: Run, opened: datetime) -> Iterator[Event]:
        """Everything between opening and closing, by when it falls in the run."""
        clock = _Pace(run, opened)
        yield from clock.loads()
        self._taste(run)
        book = self._book_g(run)
        barrels = self._barrels(run) if run.barrels else []
        self.drainer_g += round(book * CAPPINGS) - sum(barrels)
        prime = round(run.ratio * (self.tank_g + book)) - sum(barrels) - _foam_g(book)
        self.ratios.append(run.ratio)
        for place, net_g in enumerate(barrels):
            self.barrel += 1
            self.waiting.append((self.barrel, net_g))
            part = (place + 0.8) / (len(barrels) + 0.3)
            cells = {"vessel": LINE, "net": kg(net_g), "barrel": self.barrel}
            yield Event(clock.at(part), "floor", {"run": run.number, "what": "cappings", **cells})
        yield from self._fills(run, clock, prime)
        yield from self._ends(run, clock, book)

    def _taste(self, run: Run) -> None:
        """Colour and moisture of the run, its heel included."""
        grams = sum(load.book_g for load in run.loads)
        for what in ("colour", "moisture"):
            mean = sum(load.book_g * load.pallet.mean(what) for load in run.loads) / grams
            held = getattr(self, what)
            setattr(self, what, (mean * grams + held * self.tank_g) / (grams + self.tank_g))

    def _fills(self, run: Run, clock: "_Pace", prime: int) -> Iterator[Event]:
        """Drums as the honey comes, then a tote or pails from what stands in the tank."""
        left, gone, number = prime - _set_aside_g(run), 0, 0
        if left < 0:
            raise ValueError(f"run {run.number} has too little for its tote or pails")
        while left - (net_g := self.net_g()) >= LEAST_HEEL_G:
            number += 1
            left, gone = left - net_g, gone + net_g
            time = clock.at((gone - self.tank_g) / max(1, prime - self.tank_g))
            yield from self._fill(run, time, net_g, follows=number in run.to_follow)
        time = clock.end + timedelta(minutes=18)
        if run.tote:
            event = self.into(run, time, run.tote, TOTE_G, "tote")
            event.cells["washed"] = "no" if run.unwashed else None
            yield event
        container, more_g = run.top_up
        if container:
            added: dict[str, object] = {"run": run.number, "what": "top up", "source": TANK}
            added |= {"container": container, "net": kg(more_g)}
            self.filled = [one for one in self.filled if one.container != container]
            self.into(run, time + SHOWN, container, more_g, "drum")
            self.filled[-1].net_g = USUAL_DRUM_G
            yield Event(time + SHOWN, "drums", added)
        if run.part:
            part_g = step(left - LEAST_HEEL_G, 500)
            left -= part_g
            yield self.into(run, time, self.next_drum(), part_g, "drum")
        for place in range(run.pails):
            self.pail += 1
            minute = time + timedelta(minutes=3 * place)
            yield self.into(run, minute, f"Pail {self.pail}", PAIL_G, "pail")
        self.tank_g = left

    def _fill(self, run: Run, time: datetime, net_g: int, *, follows: bool) -> Iterator[Event]:
        container = self.next_drum()
        event = self.into(run, time, container, net_g, "drum")
        if follows:
            event.cells.pop("gross")
            event.cells["to_follow"] = True
        yield event
        if run.twice:
            run.twice = False
            again = {**event.cells, "container": f"Drum {self.drum + 1}"}
            yield Event(event.time + SHOWN, "drums", again)
            reason = "the same drum typed twice"
            cells: dict[str, object] = {"what": "reverse", "lot": f"drum {self.drum + 1}"}
            yield Event(event.time + 2 * SHOWN, "corrections", {**cells, "reason": reason})

    def into(self, run: Run, time: datetime, container: str, net_g: int, sort: str) -> Event:
        """Fill a container: the row to write, and the drum as it will be found."""
        moisture = round(self.chance.normal(self.moisture, 15, 1_600, 2_000) / 10) * 10
        colour = round(self.chance.normal(self.colour, 12, 80, 1_400) / 10) * 10
        self.filled.append(Filled(container, net_g, run.number, time, moisture, colour, sort))
        cells: dict[str, object] = {
            "run": run.number,
            "what": "fill",
            "source": TANK,
            "container": container,
            "gross": kg(net_g + self.tares[container]),
        }
        return Event(time, "drums", cells)

    def _ends(self, run: Run, clock: "_Pace", book: int) -> Iterator[Event]:
        """Foam, wet supers, and the run closed by the dip."""
        number = run.number
        foam: dict[str, object] = {"run": number, "what": "skim", "vessel": TANK}
        yield Event(clock.at(0.62), "floor", {**foam, "net": kg(_foam_g(book))})
        yield from _wet_out(run, clock.end + timedelta(minutes=6))
        after = clock.end + timedelta(minutes=28 + 4 * run.pails)
        close: dict[str, object] = {"run": number, "what": "close", "vessel": TANK}
        close |= {"heel": kg(self.tank_g), "how": "dip", "pending": self.drainer_g > 9_000}
        yield Event(after, "floor", close)


def _wet_out(run: Run, time: datetime) -> Iterator[Event]:
    """All empties at once; of a pooled run pull by pull, for they are shared by weight."""
    cells: dict[str, object] = {"run": run.number, "what": "wet out", "to": "wet stack"}
    if not run.pooled:
        supers = sum(load.supers for load in run.loads)
        wet = sum(load.supers * _wet_box_g(load) for load in run.loads)
        gross = kg(step(wet + 84_000, 500))
        yield Event(time, "floor", {**cells, "supers": supers, "gross": gross, "tare": "84"})
        return
    for load in run.loads:
        for pull, supers in load.pallet.parts:
            gross = kg(step(supers * _wet_box_g(load) + 42_000, 500))
            row = {**cells, "pallet": load.pallet.number, "yard": pull.yard, "supers": supers}
            yield Event(time, "floor", {**row, "gross": gross, "tare": "42"})
            time += SHOWN


class _Pace:
    """When things fall in a run: supers go through at so many frames an hour."""

    def __init__(self, run: Run, opened: datetime) -> None:
        self._run = run
        self.start = opened + timedelta(minutes=8)
        frames = sum(load.supers for load in run.loads) * 9
        self.length = timedelta(hours=frames / FRAMES_AN_HOUR)
        self.end = self.start + self.length + timedelta(minutes=22)

    def at(self, part: float) -> datetime:
        """When that part of the run's honey has come through, some minutes behind the frames."""
        return self.start + self.length * min(1.0, max(0.06, part)) + timedelta(minutes=20)

    def loads(self) -> Iterator[Event]:
        """The pallets, each as the one before it is through."""
        total = sum(load.supers for load in self._run.loads)
        through = 0
        for load in self._run.loads:
            time = self.start + self.length * (through / total)
            through += load.supers
            if load.missed:
                continue
            cells: dict[str, object] = {
                "run": self._run.number,
                "what": "load",
                "vessel": LINE,
                "pallet": load.name or load.pallet.number,
                "supers": None if load.whole else load.supers,
            }
            yield Event(time, "floor", cells, late=load.pallet.on_paper)


def _foam_g(book: int) -> int:
    return step(book * 0.0038, 500)


def _wet_box_g(load: Load) -> int:
    return {"medium": 6_660, "deep": 9_870, "shallow": 5_080}[load.pallet.parts[0][0].box]


def _set_aside_g(run: Run) -> int:
    """What a run keeps for a tote, pails, or a drum that waits for more."""
    return TOTE_G * bool(run.tote) + PAIL_G * run.pails + run.top_up[1]
