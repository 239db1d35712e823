"""What a season's work is planned with, and which figures cannot be.

A figure that cannot be is told in a sentence, and stops no more of the plan than rests on it.
What the season comes to is for `season_needs`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass

MINUTES_A_DAY = 24 * 60
DAYS_A_WEEK = 7
TOO_LITTLE = Sentence(
    "plan-too-little", "{what}: {value} is too little to plan with. Say {least} or more."
)
TOO_MUCH = Sentence("plan-too-much", "{what}: {value} is more than can be. Say {most} or less.")
LONG_DAY = Sentence(
    "plan-long-day",
    "{shifts} shifts of {hours} h are {sum} h, and a day has 24: plan fewer shifts, or shorter "
    "ones.",
)
NO_TIME_LEFT = Sentence(
    "plan-only-cleaning",
    "Cleaning takes {minutes} min a day, and the day has {open} min of work: nothing is left to "
    "extract in. Plan longer shifts, or less cleaning.",
)
NOTHING_LEFT = Sentence(
    "plan-nothing-left",
    "{through} supers are through of {supers} in all, so nothing is left to plan. Say more "
    "colonies, more supers a colony, or fewer that are through.",
)
PARTS_OF_BOXES = Sentence(
    "plan-parts-of-boxes",
    "The boxes' parts come to {sum} in 1,000 of all supers: they must come to 1,000.",
)


@dataclass(frozen=True, slots=True)
class PlanYard:
    """A yard with so many colonies."""

    name: str
    colonies: int


@dataclass(frozen=True, slots=True)
class PlanBox:
    """A sort of box: how many of 1,000 supers are such, its frames, the honey in one."""

    name: str
    of_1000: int
    frames: int
    honey_g: int


@dataclass(frozen=True, slots=True)
class HousePlan:
    """What a season is planned with. Figures in tenths end so.

    Args:
        supers_hundredths: supers a colony.
        through, here: supers that are through already, and that wait in the house.
        pulled_a_day: supers the trucks bring on a day fit for it; truck_percent is how far a
            day goes off that, one standard deviation, and truck_days how many days tell so.
        weather_permille: of all work days, those on which nothing is pulled: rain, or no time;
            weather_days is how many days tell so, the fewer the less sure.
        places, supers_a_place, warm_hours: the hot room's, one pallet a place.
        uncappers, uncapped_an_hour: places at which one person uncaps, frames an hour at each.
        spin_tenths, load_tenths: minutes a load of an extractor.
        settle_hours: honey rests in a full tank; 0 where drums are filled as it comes.
        drum_tenths: minutes to fill and close a drum.
        empties: drums that stand empty; -1 where nobody knows.
        shift_tenths: hours of one shift; clean_minutes of each day go to setting up and washing.
        stops_100h_tenths: stops in 100 hours of work; each takes stop_minutes.
        kept_permille: of the honey thought to be in the supers, what comes into drums.
        spread_percent: how far a colony's honey may be off, one standard deviation.
        jars_percent, jar_g: of the honey, what goes into jars, and one jar's net.
    """

    begins: date
    yards: tuple[PlanYard, ...]
    boxes: tuple[PlanBox, ...]
    supers_hundredths: int = 260
    through: int = 0
    here: int = 0
    pulled_a_day: int = 160
    truck_percent: int = 12
    truck_days: int = 10
    weather_permille: int = 200
    weather_days: int = 10
    days_a_week: int = 6
    places: int = 24
    supers_a_place: int = 32
    warm_hours: int = 24
    uncappers: int = 1
    uncapped_an_hour: int = 250
    extractors: int = 1
    frames_a_load: int = 30
    spin_tenths: int = 50
    load_tenths: int = 20
    tanks: int = 1
    tank_g: int = 1_500_000
    settle_hours: int = 0
    drum_g: int = 293_000
    drum_tenths: int = 80
    empties: int = -1
    crew: int = 3
    shifts: int = 1
    shift_tenths: int = 80
    clean_minutes: int = 60
    stops_100h_tenths: int = 50
    stop_minutes: int = 20
    pace_percent: int = 20
    kept_permille: int = 920
    spread_percent: int = 10
    jars_percent: int = 20
    jar_g: int = 500

    @property
    def colonies(self) -> int:
        """Of all yards."""
        return sum(yard.colonies for yard in self.yards)

    @property
    def supers(self) -> int:
        """All that will be pulled in the season, and what was."""
        return self.colonies * self.supers_hundredths // 100

    @property
    def left(self) -> int:
        """Supers still to go through."""
        return max(0, self.supers - self.through)

    @property
    def frames_a_1000(self) -> int:
        """Frames in 1,000 supers."""
        return sum(box.of_1000 * box.frames for box in self.boxes)

    @property
    def super_g(self) -> int:
        """Honey in a super at the mean."""
        return sum(box.of_1000 * box.honey_g for box in self.boxes) // 1_000

    @property
    def open_minutes(self) -> int:
        """Minutes of a work day in which the line runs."""
        return self.shifts * self.shift_tenths * 6 - self.clean_minutes


@dataclass(frozen=True, slots=True)
class Limit:
    """Between what a figure of the plan can be; `scale` of it are one of what it counts."""

    what: Phrase
    least: int
    most: int
    scale: int = 1


LIMITS: Mapping[str, Limit] = {
    "colonies": Limit(phrase("Colonies"), 1, 1_000_000),
    "supers_hundredths": Limit(phrase("Supers a colony"), 1, 3_000, 100),
    "through": Limit(phrase("Supers through"), 0, 10_000_000),
    "here": Limit(phrase("Supers in the house"), 0, 10_000_000),
    "frames": Limit(phrase("Frames a super"), 1, 20),
    "honey_g": Limit(phrase("Honey a super"), 1, 60_000),
    "pulled_a_day": Limit(phrase("Supers pulled a day"), 1, 100_000),
    "weather_permille": Limit(phrase("Days without pulling"), 0, 900, 10),
    "days_a_week": Limit(phrase("Work days a week"), 1, DAYS_A_WEEK),
    "places": Limit(phrase("Places in the hot room"), 1, 10_000),
    "supers_a_place": Limit(phrase("Supers on a pallet"), 1, 200),
    "warm_hours": Limit(phrase("Hours in the hot room"), 0, 240),
    "uncappers": Limit(phrase("Places to uncap"), 1, 50),
    "uncapped_an_hour": Limit(phrase("Uncapped an hour"), 1, 10_000),
    "extractors": Limit(phrase("Extractors"), 1, 50),
    "frames_a_load": Limit(phrase("Frames a load"), 1, 500),
    "spin_tenths": Limit(phrase("Minutes a spin"), 1, 1_200, 10),
    "load_tenths": Limit(phrase("Minutes to load"), 0, 600, 10),
    "tanks": Limit(phrase("Settling tanks"), 1, 200),
    "tank_g": Limit(phrase("What a tank holds"), 10_000, 100_000_000),
    "settle_hours": Limit(phrase("Hours of settling"), 0, 240),
    "drum_g": Limit(phrase("Honey a drum"), 1_000, 2_000_000),
    "drum_tenths": Limit(phrase("Minutes a drum"), 1, 2_400, 10),
    "crew": Limit(phrase("People"), 1, 200),
    "shifts": Limit(phrase("Shifts a day"), 1, 24),
    "shift_tenths": Limit(phrase("Hours a shift"), 1, 240, 10),
    "clean_minutes": Limit(phrase("Cleaning a day"), 0, MINUTES_A_DAY),
    "stops_100h_tenths": Limit(phrase("Stops in 100 hours"), 0, 2_000, 10),
    "stop_minutes": Limit(phrase("Minutes a stop"), 0, 1_440),
    "pace_percent": Limit(phrase("Spread of the pace"), 0, 200),
    "kept_permille": Limit(phrase("Honey into drums"), 1, 1_000, 10),
    "spread_percent": Limit(phrase("Spread of the crop"), 0, 50),
    "jars_percent": Limit(phrase("Honey into jars"), 0, 100),
    "jar_g": Limit(phrase("Honey a jar"), 1, 20_000),
}
"""Figures outside these are slips, not plans; common practice, no source."""

CROP = ("colonies", "supers_hundredths", "through")
"""What the crop rests on."""


def problems(plan: HousePlan) -> tuple[Refusal, ...]:
    """What cannot be in a plan: a sentence each, with the figure it is about."""
    found = [
        wrong
        for field, limit in LIMITS.items()
        for value in _values(plan, field)
        if (wrong := _outside(field, limit, value)) is not None
    ]
    bad = {wrong.field for wrong in found}
    parts = sum(box.of_1000 for box in plan.boxes)
    if parts != 1_000:
        found.append(Refusal(PARTS_OF_BOXES, field="frames", sum=parts))
    if not bad & {"shifts", "shift_tenths", "clean_minutes"}:
        found += _day_problems(plan)
    if not bad & set(CROP) and not plan.left:
        found.append(
            Refusal(NOTHING_LEFT, field="through", through=plan.through, supers=plan.supers)
        )
    return tuple(found)


def _values(plan: HousePlan, field: str) -> list[int]:
    if field in ("frames", "honey_g"):
        return [getattr(box, field) for box in plan.boxes if box.of_1000]
    if field == "colonies":
        below = [yard.colonies for yard in plan.yards if yard.colonies < 0]
        return below[:1] or [plan.colonies]
    return [int(getattr(plan, field))]


def _outside(field: str, limit: Limit, value: int) -> Refusal | None:
    def shown(figure: int) -> str:
        if field.endswith("_g"):
            return format_mass(figure, "kg" if limit.most > 100_000 else "g")
        return f"{figure / limit.scale:g}" if limit.scale > 1 else str(figure)

    facts = {"what": limit.what, "value": shown(value)}
    if value < limit.least:
        return Refusal(TOO_LITTLE, field=field, least=shown(limit.least), **facts)
    if value > limit.most:
        return Refusal(TOO_MUCH, field=field, most=shown(limit.most), **facts)
    return None


def _day_problems(plan: HousePlan) -> list[Refusal]:
    hours = plan.shifts * plan.shift_tenths
    if hours > 240:
        shift, whole = f"{plan.shift_tenths / 10:g}", f"{hours / 10:g}"
        return [Refusal(LONG_DAY, field="shifts", shifts=plan.shifts, hours=shift, sum=whole)]
    if plan.open_minutes <= 0:
        minutes = plan.clean_minutes
        return [Refusal(NO_TIME_LEFT, field="clean_minutes", minutes=minutes, open=hours * 6)]
    return []


CHANGES: Mapping[str, tuple[str, int]] = {
    "extractor": ("extractors", 1),
    "uncapper": ("uncappers", 1),
    "person": ("crew", 1),
    "shift": ("shifts", 1),
    "tank": ("tanks", 1),
    "places": ("places", 4),
    "truck": ("pulled_a_day", 32),
}
"""What one more of something could be: the figure of the plan, and by how much it grows."""


def changed(plan: HousePlan, what: str) -> HousePlan | None:
    """The plan with one more of something; None where that cannot be."""
    field, more = CHANGES[what]
    made = replace(plan, **{field: getattr(plan, field) + more})
    return None if problems(made) else made
