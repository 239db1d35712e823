"""The sample's hot room: what dries there, and frames that are taken out before a run.

Supers lose half a point of water while they wait, some 240 kg in a season; some 340 kg stand in
frames with brood or set honey and go back to the bees (common practice, no source).
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sample_chance import Chance, Tables, percent
from sample_crop import Pallet
from sample_floor import SHOWN, Load, Run
from sample_house import CANOLA, HOT_ROOM
from sample_runs import NOW

EVAPORATES_G, RETURNED_G = 240_000, 340_000
RETURNS = 14  # pallets with frames that do not go through
FRAMES = 9
ALL = 10_000  # hundredths of a percent


@dataclass
class Waited:
    """A pallet's supers under one tag that stood in the hot room before their first run."""

    tag: str
    pallet: Pallet
    loads: list[Load]
    run: Run
    before: int = 0
    after: int = 0
    frames: int = 0

    @property
    def book_g(self) -> int:
        """What the dock reckons."""
        return sum(load.book_g for load in self.loads)

    def water_g(self, points: int = 0) -> int:
        """What evaporates, were it so many hundredths wetter to begin with."""
        before = self.before + points
        return self.book_g - self.book_g * (ALL - before) // (ALL - self.after)

    @property
    def time(self) -> datetime:
        """The evening before its run; what was green is read when it is dry."""
        return self.run.day - timedelta(hours=6, minutes=30)


def waited(runs: list[Run]) -> list[Waited]:
    """Everything that stood at least a night in the hot room, in the order of its runs."""
    found: dict[str, Waited] = {}
    for run in runs:
        for load in run.loads:
            tag = load.name or str(load.pallet.number)
            one = found.setdefault(tag, Waited(tag, load.pallet, [], run))
            one.loads.append(load)
    return [
        one
        for one in found.values()
        if not one.pallet.on_paper
        and not any(load.missed for load in one.loads)
        and one.pallet.arrived < one.time - timedelta(hours=2)
        and one.time < NOW
    ]


def dry(runs: list[Run], chance: Chance) -> list[Waited]:
    """Say how wet each pallet came, so that together they lose what a season's supers lose."""
    read = [one for one in waited(runs) if one.pallet.moisture]
    for one in read:
        one.before = one.after = one.pallet.moisture or 0
        if one.pallet.dried_from:
            one.before = one.pallet.dried_from
    airy = [one for one in read if not one.pallet.dried_from]
    for one in airy:
        one.before += 30 + 10 * chance.whole(0, 3)
    for one in [*airy, *airy, *airy]:  # a tenth more or less until the season's water is right
        off = EVAPORATES_G - sum(each.water_g() for each in read)
        step = 10 if off > 0 else -10
        if abs(off) < 500 or not 20 <= one.before + step - one.after <= 90:
            continue
        one.before += step
    for one in read:
        if not one.pallet.dried_from:
            one.pallet.came_wet = one.before
        for load in one.loads:
            load.book_g = load.book_g * (ALL - one.before) // (ALL - one.after)
    return read


def return_frames(runs: list[Run], chance: Chance) -> list[Waited]:
    """Some frames of some pallets hold brood, or honey that has set: bees get them."""
    ready = [
        one for one in waited(runs) if len(one.pallet.parts) == 1 and not one.tag.endswith("b")
    ]
    some = ready[:: max(1, len(ready) // RETURNS)][:RETURNS]
    left_g = RETURNED_G
    for place, one in enumerate(some):
        supers = sum(load.supers for load in one.loads)
        each_g = one.book_g / supers / FRAMES
        one.frames = max(1, round(left_g / (len(some) - place) / each_g))
        gone_g = round(one.book_g * one.frames / (supers * FRAMES))
        left_g -= gone_g
        for load in one.loads:
            load.book_g -= gone_g * load.supers // supers
    return some


def write(tables: Tables, dried: list[Waited], returned: list[Waited]) -> None:
    """Write what the refractometer and the crew said, the evening before each run."""
    for one in dried:
        time = one.time
        if one.pallet.dried_from:
            time = one.pallet.arrived + timedelta(hours=46, minutes=20)
        tables.add(
            "rooms_log",
            when=tables.free(time),
            what="dried",
            room=HOT_ROOM,
            things=f"pallet {one.tag}",
            before=percent(one.before),
            after=percent(one.after),
            hours=round((time - one.pallet.arrived).total_seconds() / 3600),
        )
    for one in returned:
        pull = one.pallet.parts[0][0]
        typed = one.pallet.yard_typed.get(pull.yard, pull.yard)
        tables.add(
            "pallets",
            when=tables.free(one.time + 50 * SHOWN),
            what="set aside",
            pallet=one.tag,
            frames=one.frames,
            why="set" if typed in CANOLA else "brood",
            to="bees",
            bees=typed,
        )
