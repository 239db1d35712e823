"""The sample's crop: which yards were pulled when, on which pallets, and what these weighed."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta

import sample_house as house
from sample_chance import Chance, Tables, at, kg, percent, step

SUPERS = {"medium": 2540, "deep": 370, "shallow": 190}
HONEY_G = {"medium": 14_800, "deep": 25_500, "shallow": 10_000}
RANGE_G = {
    "medium": (9_000, 20_000),
    "deep": (18_000, 34_000),
    "shallow": (7_500, 12_500),
}
BOX_G = {"medium": 6_100, "deep": 8_900, "shallow": 4_700}
MOST = {"medium": 42, "deep": 24, "shallow": 40}
COMB_YARD, COMB = "Cattail Row", 70
COMB_PULLED = at(9, 22)
LATE = {at(9, 24): 15, at(9, 25): 21}  # supers of the last, small pulls

TRUCKS = {
    "July": [at(7, day) for day in (8, 9, 11, 13, 14, 16, 18, 20, 22, 24, 25, 27, 29)],
    "August": [at(8, day) for day in (5, 6, 8, 11, 13, 15, 18, 20, 22, 25, 28)],
    "September": [at(9, day) for day in (14, 15, 17, 19, 22, 24, 25)],
}
MOISTURE = {
    "July": (1_755, 1_660, 1_890),
    "August": (1_680, 1_600, 1_800),
    "September": (1_800, 1_680, 1_960),
}
AFTER_RAIN = (at(7, 27), at(7, 29))
PULLS = {"July": 36, "August": 33, "September": 19}
MOST_REST = 20


@dataclass
class Pull:
    """Supers pulled in one yard on one day."""

    yard: str
    flow: str
    day: datetime
    box: str
    supers: int
    each_g: int
    moisture: int
    colour: int
    crew: str = ""
    owner: str = ""


@dataclass
class Pallet:
    """A pallet as it came; `book_g` is what the dock reckons it holds."""

    number: int
    arrived: datetime
    parts: list[tuple[Pull, int]]
    tare_g: int = 0
    typed_tare_g: int = 0
    gross_g: int | None = None
    condition: str = "sealed"
    moisture: int | None = None
    on_paper: bool = False
    yard_typed: dict[str, str] = field(default_factory=dict)
    dried_from: int | None = None
    came_wet: int | None = None
    left_g: int = 0

    @property
    def supers(self) -> int:
        """Supers on it."""
        return sum(count for _, count in self.parts)

    @property
    def book_g(self) -> int:
        """Honey by the scale less tares, or by count."""
        if self.gross_g is None:
            return sum(count * HONEY_G[pull.box] for pull, count in self.parts)
        empties = sum(count * BOX_G[pull.box] for pull, count in self.parts)
        return self.gross_g - self.typed_tare_g - empties

    def mean(self, what: str) -> float:
        """The mean colour or moisture of its supers."""
        total = sum(count * getattr(pull, what) for pull, count in self.parts)
        return total / self.supers

    @property
    def names(self) -> list[str]:
        """Its pulls as the other files call them, by the yard that was typed."""
        yards = [self.yard_typed.get(pull.yard, pull.yard) for pull, _ in self.parts]
        return [f"{yard} on pallet {self.number}" for yard in yards]


def pulls(chance: Chance, colonies: dict[str, int]) -> list[Pull]:
    """Plan the season's pulls, in order of their days."""
    found: list[Pull] = []
    for flow, days in TRUCKS.items():
        yards = list(_yards_of(flow))
        for place, yard in enumerate(yards):
            day = days[place * len(days) // len(yards)]
            found += _pulls_of(yard, flow, day, chance)
    _share_supers(found, colonies, chance)
    _share_honey(found, chance)
    return found


def _yards_of(flow: str) -> Iterator[str]:
    """The yards of a flow in the order they are pulled: canola first, basswood late in July."""
    ordinary = [
        yard
        for yard in house.YARDS
        if yard not in (house.GAVE_NOTHING, house.OWNERS_YARD, *house.FAILED)
    ]
    if flow == "July":
        first = [yard for yard in ordinary if yard in house.CANOLA]
        last = [yard for yard in ordinary if yard in house.BASSWOOD]
        between = [yard for yard in ordinary if yard not in (*first, *last, *house.BUCKWHEAT)]
        buckwheat = list(house.BUCKWHEAT)
        yield from [*first, *between[:16], *buckwheat, *last, *between[16:]][: PULLS[flow]]
    elif flow == "August":
        some = [yard for yard in ordinary if yard not in house.BUCKWHEAT][2:30]
        yield from [*house.FAILED, *some[:16], house.OWNERS_YARD, *some[16:], *house.BUCKWHEAT]
    else:
        some = [yard for yard in ordinary if yard != COMB_YARD][::2]
        last = PULLS[flow] - 3
        yield from [*some[:last], COMB_YARD, *some[last : last + 2]]


def _pulls_of(yard: str, flow: str, day: datetime, chance: Chance) -> Iterator[Pull]:
    box = "medium"
    if (flow, yard) == ("September", COMB_YARD):
        day = COMB_PULLED  # comb is pulled before it can set
    if flow == "July" and yard in house.DEEP:
        box = "deep"
    if (flow, yard) == ("September", COMB_YARD) or (
        flow == "August" and yard in ("Sedgewater", "Quillery", "Grebe Landing", "Hobbing Gate")
    ):
        box = "shallow"
    mean, low, high = MOISTURE[flow]
    if day in AFTER_RAIN:
        mean = high - 35
    wet = round(chance.normal(mean, 55, low, high))
    yield Pull(yard, flow, day, box, 0, 0, wet, _colour(yard, flow, day, chance))


def _colour(yard: str, flow: str, day: datetime, chance: Chance) -> int:
    """Tenths of a Pfund millimetre, by what was in flower."""
    if yard in house.BUCKWHEAT and flow == "August":
        return round(chance.between(1100, 1400))
    if flow == "September":
        return round(chance.between(450, 850))
    if flow == "July" and yard in house.BASSWOOD:
        return round(chance.between(200, 350))
    if flow == "July" and day < at(7, 15) and yard in house.CANOLA:
        return round(chance.between(80, 160))
    return round(chance.between(120, 280))


def _share_supers(found: list[Pull], colonies: dict[str, int], chance: Chance) -> None:
    """Give each pull its supers, so that the kinds of boxes add up; some yards do better."""
    times = {yard: sum(pull.yard == yard for pull in found) for yard in house.YARDS}
    good = {yard: chance.normal(1, 0.22, 0.62, 1.36) for yard in house.YARDS}
    good |= dict.fromkeys(house.FAILED, 0.4)
    for box, total in SUPERS.items():
        of_box = [pull for pull in found if pull.box == box]
        fixed = {house.OWNERS_YARD: 110} if box == "medium" else {}
        if box == "shallow":
            fixed = {COMB_YARD: COMB}
        free = [pull for pull in of_box if pull.yard not in fixed]
        for pull in of_box:
            pull.supers = fixed.get(pull.yard, 0)
        weights = [colonies[pull.yard] * good[pull.yard] / times[pull.yard] for pull in free]
        left = total - sum(fixed.values())
        for pull, weight in zip(free, weights, strict=True):
            pull.supers = max(14, round(left * weight / sum(weights)))
            pull.supers = LATE.get(pull.day, pull.supers)
        while (off := left - sum(pull.supers for pull in free)) != 0:
            pull = free[chance.whole(0, len(free) - 1)]
            if pull.supers > 15 and pull.day not in LATE:
                pull.supers += 1 if off > 0 else -1


def _share_honey(found: list[Pull], chance: Chance) -> None:
    """Give each pull its honey a super, so that each kind of box has its usual mean."""
    for box, mean in HONEY_G.items():
        of_box = [pull for pull in found if pull.box == box]
        low, high = RANGE_G[box]
        raw = [chance.normal(mean, mean * 0.14, low * 1.04, high * 0.96) for _ in of_box]
        free = [
            (each, pull.supers)
            for each, pull in zip(raw, of_box, strict=True)
            if (box, pull.yard) != ("shallow", COMB_YARD)
        ]
        factor = mean * sum(row[1] for row in free) / sum(each * n for each, n in free)
        for each, pull in zip(raw, of_box, strict=True):
            pull.each_g = round(min(high, max(low, each * factor)))
            if pull.yard == house.OWNERS_YARD:
                pull.each_g = 14_600
            if box == "shallow" and pull.yard == COMB_YARD:
                pull.each_g = HONEY_G[box]


def pallets(found: list[Pull], chance: Chance) -> list[Pallet]:
    """Put each truck's pulls on pallets; what is left of two yards may share one."""
    loaded: list[Pallet] = []
    for day in sorted({pull.day for pull in found}):
        crew = chance.one_of(house.CREWS)
        stacks: list[list[tuple[Pull, int]]] = []
        rests: list[tuple[Pull, int]] = []
        for pull in (one for one in found if one.day == day):
            pull.crew = crew
            for count in _parts(pull):
                if count <= MOST_REST:
                    rests.append((pull, count))
                else:
                    stacks.append([(pull, count)])
        stacks += _together(rests)
        time = day + timedelta(hours=chance.whole(12, 14), minutes=chance.whole(0, 40))
        for stack in stacks:
            time += timedelta(minutes=chance.whole(5, 9))
            loaded.append(_weighed(Pallet(len(loaded) + 1, time, stack), chance))
    return loaded


def _parts(pull: Pull) -> list[int]:
    """How a pull's supers are stacked: full pallets and a small rest, or even parts."""
    most = MOST[pull.box]
    full, rest = divmod(pull.supers, most)
    if 0 < rest <= MOST_REST and full:
        return [most] * full + [rest]
    number = -(-pull.supers // most)
    return [pull.supers // number + (at < pull.supers % number) for at in range(number)]


def _together(rests: list[tuple[Pull, int]]) -> list[list[tuple[Pull, int]]]:
    return [rests[place : place + 2] for place in range(0, len(rests), 2)]


def _weighed(pallet: Pallet, chance: Chance) -> Pallet:
    pallet.tare_g = step(chance.normal(41_000, 2_500, 36_000, 47_000), 500)
    pallet.typed_tare_g = pallet.tare_g
    empties = sum(count * BOX_G[pull.box] for pull, count in pallet.parts)
    honey = sum(count * pull.each_g for pull, count in pallet.parts)
    if chance.between(0, 1) > 0.05:
        pallet.gross_g = step(pallet.tare_g + empties + honey, 500)
    wet = pallet.mean("moisture")
    pallet.condition = "sealed" if wet < 1_810 else "mixed"
    if pallet.condition != "sealed" or chance.between(0, 1) < 0.55:
        pallet.moisture = round(wet / 10) * 10
    return pallet


def write_receipts(tables: Tables, loaded: list[Pallet], chance: Chance) -> None:
    """Write a row a pull: what was typed, which is not always how it was."""
    for pallet in loaded:
        for place, (pull, count) in enumerate(pallet.parts):
            first = place == 0
            sheet = count if len(pallet.parts) == 1 and count == pull.supers else None
            if sheet and chance.between(0, 1) < 0.06:
                sheet += 1 if chance.between(0, 1) < 0.6 else -1
            tables.add(
                "receipts_on_paper" if pallet.on_paper else "receipts",
                pallet=pallet.number,
                arrived=pallet.arrived,
                yard=pallet.yard_typed.get(pull.yard, pull.yard),
                pulled=pull.day,
                crew=pull.crew,
                supers=count,
                sheet=sheet,
                box=None if pull.box == "medium" else pull.box,
                gross=kg(pallet.gross_g) if pallet.gross_g and first else None,
                tare=kg(pallet.typed_tare_g) if first else None,
                condition=pallet.condition if first else None,
                moisture=_wet(pallet) if first else None,
                owner=house.OWNER if pull.yard == house.OWNERS_YARD else pull.owner,
                **_typed(tables, pallet),
            )


def _wet(pallet: Pallet) -> str | None:
    wet = pallet.dried_from or pallet.came_wet or pallet.moisture
    return percent(wet) if wet else None


def _typed(tables: Tables, pallet: Pallet) -> dict[str, object]:
    if not pallet.on_paper:
        return {}
    hour = pallet.arrived.replace(hour=19, minute=30)
    return {"typed": tables.free(hour), "by": "Wim Haskerly"}
