"""The sample's twenty-six runs: which pallets went into each, and what was out of the ordinary."""

from datetime import datetime, timedelta

import sample_house as house
from sample_chance import Chance, Tables, at, kg, percent, step
from sample_crop import COMB_PULLED, COMB_YARD, Pallet
from sample_floor import (
    DRAINED,
    FRAMES_AN_HOUR,
    LINE,
    SHOWN,
    SUMP,
    TANK,
    USUAL_DRUM_G,
    Event,
    Floor,
    Load,
    Run,
)

NOW = at(9, 25, 15, 40)
RUN_DAYS = {
    "July": [at(7, day) for day in (10, 13, 15, 17, 20, 21, 23, 24, 27, 28, 30, 31)],
    "August": [at(8, day) for day in (7, 10, 12, 14, 17, 19, 21, 24, 26, 31)],
    "September": [at(9, day) for day in (16, 18, 23, 25)],
}
SUNDAYS = (at(7, 12), at(7, 19), at(7, 26), at(8, 9), at(8, 16), at(8, 23), at(8, 30), at(9, 20))
LINE_WASHED = at(8, 1, 11)
FIRST_DAY = (1, 2, 3)  # pallets of which every pull was still read
PART_DRUM, TOPPED_UP = 5, 6
PAPER, CARRIES, TIMELESS, LAST_OF_JULY, WITH_PALLETS, OWNERS, MISSED, POOLED, TOTE_AGAIN, OPEN = (
    *(8, 9, 11, 12, 14, 18, 20, 23, 24, 26),
)
AGREEMENT = "shared by the weight of honey taken out, agreed with {owner} by telephone"
PAILS = {4: 12, 15: 12, 22: 12}
SPLIT_OFF = 14
TREATED_YARD = "Thrumley Road"


class Queue:
    """The hot room: pallets in the order in which they came."""

    def __init__(self, pallets: list[Pallet]) -> None:
        self.waiting = list(pallets)
        self.kept: list[Pallet] = []

    def keep(self, pallets: list[Pallet]) -> None:
        """Set pallets aside for a run or for good."""
        self.kept += pallets
        self.waiting = [one for one in self.waiting if one not in pallets]

    def before(self, day: datetime) -> list[Pallet]:
        """What had come by the evening before a day."""
        return [one for one in self.waiting if one.arrived < day]


def plan(pallets: list[Pallet], chance: Chance) -> list[Run]:
    """Plan all runs; pallets are marked with what was typed of them."""
    queue = Queue(pallets)
    owners = [one for one in pallets if _of(one, house.OWNERS_YARD)]
    queue.keep(owners)
    queue.keep([one for one in pallets if one.arrived >= at(9, 24)])
    queue.keep(comb_pallets(pallets))
    queue.keep([one for one in pallets if one.arrived > at(9, 1) and _of(one, TREATED_YARD)])
    paper = _paper_pallets(pallets)
    queue.keep(paper)
    runs: list[Run] = []
    for flow, days in RUN_DAYS.items():
        for place, day in enumerate(days):
            number = len(runs) + 1
            if number == OWNERS:
                loads = [Load(one, one.supers, one.book_g) for one in owners]
            else:
                left = len(days) - place - (OWNERS - number in range(1, 9) and flow == "August")
                loads = _loads(queue, day, flow, left, number, paper)
            ratio = chance.normal(0.976, 0.032, 0.905, 1.055)
            runs.append(Run(number, day, loads, ratio))
    _carry(runs)
    _dry(runs)
    _specials(runs)
    return runs


def _dry(runs: list[Run]) -> None:
    """Three green pallets stand in the hot room until they are dry; of one, part is split off."""
    ready = [
        load
        for run in runs
        for load in run.loads
        if load.pallet.arrived >= at(9, 1) and (run.day - load.pallet.arrived).days >= 2
    ]
    ready.sort(key=lambda load: (len(load.pallet.parts), -load.supers))
    for load, wet in zip(ready[:3], (1960, 1930, 1910), strict=True):
        load.pallet.dried_from = wet
        load.pallet.condition = "green"
        for pull, _ in load.pallet.parts:
            pull.moisture = min(pull.moisture, 1_800)
        load.pallet.moisture = round(load.pallet.mean("moisture") / 10) * 10
    split = ready[0]
    run = next(run for run in runs if split in run.loads)
    part = split.book_g * SPLIT_OFF // split.supers
    rest = Load(split.pallet, split.supers - SPLIT_OFF, split.book_g - part)
    place = run.loads.index(split)
    off = Load(split.pallet, SPLIT_OFF, part, name=f"{split.pallet.number}b")
    run.loads[place : place + 1] = [rest, off]


def write_hot_room(tables: Tables, runs: list[Run], pallets: list[Pallet], chance: Chance) -> None:
    """What was done to pallets while they waited: split, joined, counted again, dried, read."""
    for load in (load for run in runs for load in run.loads if load.name):
        pallet = load.pallet
        when = tables.free(pallet.arrived + timedelta(minutes=48))
        cells = {"pallet": pallet.number, "supers": load.supers, "onto": load.name}
        tables.add("pallets", when=when, what="split", **cells)
    small = [one for one in pallets if one.arrived.date() == at(9, 24).date()]
    counted = small[0]
    when = tables.free(at(9, 25, 8, 10))
    cells = {"pallet": counted.number, "supers": counted.parts[0][1] - 1}
    if len(counted.parts) > 1:
        cells["yard"] = counted.parts[0][0].yard
    tables.add("pallets", when=when, what="count", **cells)
    comb = comb_pallets(pallets)
    when = tables.free(COMB_PULLED + timedelta(hours=17, minutes=20))
    tables.add("pallets", when=when, what="join", pallet=comb[-1].number, onto=comb[0].number)
    for pallet in pallets:
        _read_pulls(tables, pallet, chance)


def _read_pulls(tables: Tables, pallet: Pallet, chance: Chance) -> None:
    """Most pulls are read for colour; what was green is read again until it is dry."""
    for (pull, _), name in zip(pallet.parts, pallet.names, strict=True):
        time = pallet.arrived + timedelta(minutes=chance.whole(50, 95))
        read = chance.between(0, 1) < 0.75 or pallet.number in FIRST_DAY
        if read and not pallet.on_paper and time < NOW:
            tables.add("readings", when=tables.free(time), lot=name, colour=pull.colour // 10)
        if pallet.dried_from:
            hours = chance.whole(42, 46)
            middle = (pallet.dried_from + (pallet.moisture or 0)) // 2
            for part, wet in ((19, middle), (hours, pallet.moisture or 0)):
                when = tables.free(pallet.arrived + timedelta(hours=part, minutes=5))
                cells: dict[str, object] = {"moisture": percent(wet), "temperature": "34"}
                tables.add("readings", when=when, lot=name, instrument="Refractometer 1", **cells)


def comb_pallets(pallets: list[Pallet]) -> list[Pallet]:
    """The pallets with supers for cut comb: none of them goes into a run."""
    return [one for one in pallets if _of(one, COMB_YARD) and one.arrived > COMB_PULLED]


def _of(pallet: Pallet, yard: str) -> bool:
    return any(pull.yard == yard for pull, _ in pallet.parts)


def _paper_pallets(pallets: list[Pallet]) -> list[Pallet]:
    """Two pallets of the truck that came in the morning of a run, with the office closed."""
    day = RUN_DAYS["July"][PAPER - 1]
    paper = [one for one in pallets if one.arrived.date() == day.date()][:2]
    for place, pallet in enumerate(paper):
        pallet.arrived = day + timedelta(hours=10, minutes=10 + 12 * place)
        pallet.on_paper = True
    return paper


def _loads(
    queue: Queue, day: datetime, flow: str, runs_left: int, number: int, paper: list[Pallet]
) -> list[Load]:
    ahead = [one for one in queue.waiting if one.parts[0][0].flow == flow]
    target = sum(one.book_g for one in ahead) / runs_left
    taken: list[Pallet] = []
    here = queue.before(day)
    if number == PAPER:
        target -= sum(one.book_g for one in paper)
        target = max(target, 700_000)
    if number == len(RUN_DAYS["July"]) or number == OPEN:
        target = 10**9
    while here and sum(one.book_g for one in taken) + here[0].book_g / 2 < target:
        taken.append(here.pop(0))
    queue.waiting = [one for one in queue.waiting if one not in taken]
    taken += paper if number == PAPER else []
    return [Load(one, one.supers, one.book_g) for one in taken]


def _carry(runs: list[Run]) -> None:
    """Twelve supers of a run's last pallet are carried over to the next run."""
    run, following = runs[CARRIES - 1], runs[CARRIES]
    load = run.loads[-1]
    rest = load.supers - 12
    first = load.book_g * rest // load.supers
    run.loads[-1] = Load(load.pallet, rest, first, whole=False)
    following.loads.insert(0, Load(load.pallet, 12, load.book_g - first))


def _specials(runs: list[Run]) -> None:
    """What was out of the ordinary, run by run."""
    by_number = {run.number: run for run in runs}
    by_number[3].to_follow = (2, 3)
    by_number[PART_DRUM].part = True
    by_number[PART_DRUM].leaves_g = (170_000, 225_000)
    by_number[TOPPED_UP].tote = "Tote 1"
    by_number[7].twice = True
    by_number[TIMELESS].timeless = True
    by_number[LAST_OF_JULY].leaves_g = (120_000, 200_000)
    heavy = by_number[WITH_PALLETS]
    heavy.ratio = 0.86
    for load in heavy.loads:
        load.pallet.typed_tare_g = 0
        load.book_g = load.pallet.book_g
    by_number[TOTE_AGAIN].tote = "Tote 1"
    by_number[TOTE_AGAIN].unwashed = True
    _pool(by_number[POOLED])
    for number, pails in PAILS.items():
        by_number[number].pails = pails
    missed = by_number[MISSED]
    missed.ratio, missed.barrels = 1.12, False
    missed.leaves_g = (26_000, 60_000)  # so that the last drum takes more than the books see
    single = [load for load in missed.loads[:-1] if len(load.pallet.parts) == 1]
    lost = max(single, key=lambda load: load.book_g)
    lost.missed = True
    missed.loads.sort(key=lambda load: load.missed)
    last = by_number[OPEN]
    frames = 9 * sum(load.supers for load in last.loads)
    last.start = NOW - last.day - timedelta(hours=0.8 * frames / FRAMES_AN_HOUR, minutes=20)
    last.stops, last.to_follow = NOW, (3,)


def _pool(run: Run) -> None:
    """Too few supers for a run of their own go through with the house's: their owner agreed."""
    run.pooled = AGREEMENT.format(owner=house.GUEST)
    for load in run.loads:
        for pull, _ in load.pallet.parts:
            if pull.yard == house.GUESTS_YARD:
                pull.owner = house.GUEST


def work(runs: list[Run], floor: Floor) -> None:
    """Work all runs in order, with what was done before, between and after them."""
    sundays = list(SUNDAYS)
    for run in runs:
        while sundays and sundays[0] < run.day:
            cells: dict[str, object] = {"what": "wash", "vessel": SUMP, "by": "Anselm Tirrow"}
            floor.note(Event(sundays.pop(0) + timedelta(hours=9, minutes=30), "floor", cells))
        if run.number == MISSED + 1:
            _found(runs[MISSED - 1], run.day, floor)
        floor.pour_barrels(run.day)
        if run.number == MISSED - 1:
            floor.aim(run, runs[MISSED - 1])
        if run.number == TOPPED_UP:
            part = floor.filled[-1]
            run.top_up = (part.container, USUAL_DRUM_G - part.net_g)
        floor.work(run)
        if run.number == 3:
            _weigh_later(run, floor)
        if run.number == LAST_OF_JULY:
            _wash_line(floor)


def _weigh_later(run: Run, floor: Floor) -> None:
    """The scale was away: two drums are weighed the next morning."""
    drums = [one for one in floor.filled if one.run == run.number]
    time = run.day + timedelta(days=1, hours=8, minutes=5)
    for place in run.to_follow:
        one = drums[place - 1]
        gross = kg(one.net_g + floor.tares[one.container])
        cells: dict[str, object] = {"what": "weigh", "container": one.container, "gross": gross}
        floor.note(Event(time, "drums", cells))


def _found(run: Run, day: datetime, floor: Floor) -> None:
    """The pallet whose tag had come off is found to be the honey nobody could name."""
    load = next(load for load in run.loads if load.missed)
    place = run.loads.index(load)
    before = sum(one.supers for one in run.loads[:place])
    when = run.day + run.start + timedelta(minutes=10 + before * 9 * 60 // 235)
    typed = run.day + timedelta(days=1, hours=7, minutes=5)
    tag: dict[str, object] = {"pallet": load.pallet.number, "reason": "its tag lay on the floor"}
    floor.tables.add(
        "corrections",
        what="amend",
        when=when,
        typed=floor.tables.free(typed),
        lot="unknown 1",
        by="Nell Varrowby",
        **tag,
    )
    floor.tables.add(
        "quality",
        what="release",
        when=floor.tables.free(typed + 6 * SHOWN),
        target="unknown 1",
        by="Nell Varrowby",
        reason="the pallet it came from is found",
    )


def _wash_line(floor: Floor) -> None:
    """The flow is over: all of the line is emptied and washed, once in the season.

    The rest of the cappings is weighed when the uncapper is clean, so that none of July's are in
    a barrel of August; their honey goes into a drum of its own.
    """
    time = LINE_WASHED.replace(hour=7, minute=30)
    run = Run(LAST_OF_JULY, LINE_WASHED, [], 1)
    event = floor.into(run, time, floor.next_drum(), floor.tank_g - 6_000, "drum")
    event.cells.pop("run")
    floor.note(event)
    cells: dict[str, object] = {"what": "wash", "vessel": f"{LINE} + {SUMP} + {TANK}"}
    floor.note(Event(LINE_WASHED, "floor", {**cells, "remains": "rinse"}))
    floor.tank_g = 0
    time = LINE_WASHED + timedelta(minutes=95)
    floor.barrel += 1
    rest_g = floor.drainer_g // 500 * 500
    last: dict[str, object] = {"what": "cappings", "vessel": LINE, "barrel": floor.barrel}
    floor.note(Event(time, "floor", {**last, "net": kg(rest_g)}))
    floor.set_aside, floor.waiting = [*floor.waiting, (floor.barrel, rest_g)], []
    floor.drainer_g = 0
    for place, (number, net_g) in enumerate(floor.set_aside):
        filling: dict[str, object] = {
            "what": "fill" if number == floor.barrel else "part fill",
            "source": f"barrel {number}",
            "container": house.CAPPINGS_DRUM,
            "net": kg(step(net_g * DRAINED, 100)),
        }
        floor.note(Event(time + timedelta(hours=4, minutes=6 * place), "drums", filling))


def write_readings(floor: Floor, tables: Tables) -> None:
    """Every drum is read the next morning, from sample pots; today's are not read yet."""
    mornings: dict[datetime, int] = {}
    for one in floor.filled:
        if one.sort == "pail" or one.time > NOW.replace(hour=0, minute=0):
            continue
        day = one.time.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
        mornings[day] = mornings.get(day, 0) + 1
        low = 19 <= one.run <= 21
        when = tables.free(day + timedelta(hours=9, minutes=2 * mornings[day]))
        seen = one.moisture - (40 if low else 0)
        cells: dict[str, object] = {"lot": one.container.lower(), "colour": one.colour // 10}
        instrument = "Refractometer 2" if low else "Refractometer 1"
        tables.add("readings", when=when, moisture=percent(seen), instrument=instrument, **cells)
        if low:
            again = tables.free(at(9, 1, 13) + timedelta(minutes=2 * len(mornings)))
            why = "Refractometer 1, read again: refractometer 2 was 0.4 low"
            tables.add(
                "readings",
                when=again,
                lot=one.container.lower(),
                moisture=percent(one.moisture),
                instrument=why,
            )
