"""A season's plan as sentences and tables: the terminal shows them, a paper has them printed."""

from dataclasses import dataclass

from honeyledger.domain.moments import format_day
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.labelling import HEAD_DIGITS
from honeyledger.services.report_tables import Report, ReportTable, figure, name
from honeyledger.services.season_defaults import Defaults
from honeyledger.services.season_forecast import WAITS, Band, Forecast
from honeyledger.services.season_needs import PARTS
from honeyledger.services.season_plan import LIMITS
from honeyledger.services.season_typed import plan_figure, plan_unit
from honeyledger.services.season_words import CAUTION, CHANGE_WORDS, PART_WORDS, WAIT_WORDS
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View

DRUMS_A_PALLET = 4  # common practice, no source
UNKNOWN = "not to be told"


@dataclass(frozen=True, slots=True)
class PlanFrame:
    """What stands on every paper of a house, and its unit."""

    house: str
    head: str
    unit: MassUnit


def plan_frame(view: View) -> PlanFrame:
    """The frame of a plan's paper."""
    mark, head = view.mark("house", "record"), view.head()
    named = mark.value.get("name", "") if mark and isinstance(mark.value, dict) else ""
    digest = head.digest[:HEAD_DIGITS].upper()
    return PlanFrame(str(named), f"{head.entry} {digest}", mass_unit(view))


def plan_report(made: Forecast, defaults: Defaults, frame: PlanFrame) -> Report:
    """All of a plan: what it comes to, what holds it up, what more buys, what it rests on."""
    tables = [comes_to(made, frame.unit), holds_up(made)]
    if made.gains:
        tables.append(buys(made))
    if made.waits:
        tables.append(waits_for(made))
    tables.append(planned_with(made, defaults, frame.unit))
    if len(made.plan.yards) > 1:
        tables.append(by_yard(made))
    return Report(
        title="Season plan",
        house=frame.house,
        head=frame.head,
        facts=(
            ("Begins", format_day(made.plan.begins)),
            ("Ends, at the middle", ends_words(made)),
            ("Four of five end", between_words(made)),
            ("Held up by", PART_WORDS.get(made.needs.bottleneck or "", UNKNOWN)),
        ),
        says=plan_says(made, defaults),
        tables=tuple(tables),
    )


def ends_words(made: Forecast) -> str:
    """When the last super is through."""
    if made.ends is None:
        return UNKNOWN
    return "not within a year" if made.late * 2 >= made.seasons else format_day(made.ends[1])


def between_words(made: Forecast) -> str:
    """From when to when."""
    if made.ends is None:
        return UNKNOWN
    low, _, high = (format_day(day) for day in made.ends)
    return f"{low} to {high}"


def plan_says(made: Forecast, defaults: Defaults) -> tuple[str, ...]:
    """What cannot be, what is short, and what all of it rests on."""
    said = [one.text for one in made.wrong]
    if made.wrong:
        said.append("What does not rest on that is planned all the same.")
    if defaults.is_rest:
        said.append("It is the rest of the season that is going on.")
    if made.needs.drums_short:
        said.append(
            f"{format_number(made.needs.drums_short)} drums are missing: "
            f"{format_number(max(0, made.plan.empties))} stand empty."
        )
    if made.stopped:
        said.append("It was stopped: the bands are of fewer seasons.")
    if made.seasons:
        late = f" {made.late} of them did not end within a year." if made.late else ""
        said.append(
            f"Bands are where four of five of {format_number(made.seasons)} simulated seasons "
            f"come out.{late}"
        )
    return (*said, str(CAUTION))


def comes_to(made: Forecast, unit: MassUnit) -> ReportTable:
    """Arithmetic first, then the bands."""
    need = made.needs
    rows: list[tuple[str, ...]] = [
        ("Supers", _count(need.supers), "", ""),
        ("Frames", _count(need.frames), "", ""),
        ("Loads", _count(need.loads), "", ""),
        ("Honey", _mass(need.honey_g, unit), "", ""),
    ]
    rows += [
        _row("Days", made.days, need.days),
        _row("Work days of the line", made.work_days, None),
        _row("Hours of the line", made.hours, _hours(need.minutes)),
        ("Hours of work, all people", _count(_hours(need.work_minutes)), "", ""),
        _row("Drums", made.drums, need.drums),
        _row("Pallets of full drums", _pallets(made.drums), _four(need.drums)),
        _row("Jars", made.jars, need.jars),
        _row("Places in the hot room", made.pallets, need.pallets),
    ]
    columns = (name("what"), figure("middle"), figure("from"), figure("to"))
    return ReportTable("comes to", "What it comes to", columns, tuple(rows))


def _row(words: str, band: Band | None, plain: int | None) -> tuple[str, ...]:
    """A band; where nothing was simulated, the arithmetic's figure."""
    if band is None:
        return words, _count(plain), "", ""
    return words, _count(band.middle), _count(band.low), _count(band.high)


def _hours(minutes: int | None) -> int | None:
    return None if minutes is None else -(-minutes // 60)


def _four(drums: int | None) -> int | None:
    return None if drums is None else -(-drums // DRUMS_A_PALLET)


def _pallets(drums: Band | None) -> Band | None:
    if drums is None:
        return None
    low, middle, high = (-(-n // DRUMS_A_PALLET) for n in (drums.low, drums.middle, drums.high))
    return Band(low, middle, high)


def _count(number: int | None) -> str:
    return UNKNOWN if number is None else format_number(number)


def _mass(grams: int | None, unit: MassUnit) -> str:
    return UNKNOWN if grams is None else format_mass(grams, unit, 0)


def holds_up(made: Forecast) -> ReportTable:
    """Each part's days, if it alone held the season up; the longest does."""
    days = made.needs.part_days
    rows = [
        (
            str(PART_WORDS[part]),
            f"{days[part]:.1f}" if part in days else UNKNOWN,
            "the longest" if part == made.needs.bottleneck else "",
        )
        for part in PARTS
    ]
    columns = (name("part"), figure("days alone"), name("", 2.0))
    return ReportTable("holds up", "What holds it up", columns, tuple(rows))


def buys(made: Forecast) -> ReportTable:
    """Days by which the season ends sooner."""
    rows = tuple(
        (
            str(CHANGE_WORDS[gain.what]),
            _count(gain.days.middle),
            _count(gain.days.low),
            _count(gain.days.high),
        )
        for gain in made.gains
    )
    columns = (name("more"), figure("days sooner"), figure("from"), figure("to"))
    return ReportTable("buys", "What more buys", columns, rows)


def waits_for(made: Forecast) -> ReportTable:
    """Of a machine's hours, what it waits for."""
    rows = tuple(
        (str(WAIT_WORDS[what]), f"{part / 10:.0f} %")
        for what, part in zip(WAITS, made.waits, strict=True)
    )
    columns = (name("what"), figure("of its hours"))
    return ReportTable("waits", "Where the line waits", columns, rows)


def by_yard(made: Forecast) -> ReportTable:
    """Colonies of each yard, and the supers of so many at the mean of all."""
    a_colony = made.plan.supers_hundredths
    rows = tuple(
        (yard.name, _count(yard.colonies), _count(round(yard.colonies * a_colony / 100)))
        for yard in made.plan.yards
    )
    columns = (name("yard"), figure("colonies"), figure("supers, about"))
    return ReportTable("yards", "By yard", columns, rows)


def planned_with(made: Forecast, defaults: Defaults, unit: MassUnit) -> ReportTable:
    """Every figure, and whether the ledger told it."""
    rows = []
    for field, limit in LIMITS.items():
        if field in ("frames", "honey_g"):
            values = [getattr(box, field) for box in made.plan.boxes if box.of_1000]
            shown = ", ".join(dict.fromkeys(plan_figure(field, one, unit) for one in values))
        else:
            shown = plan_figure(field, int(getattr(made.plan, field)), unit)
        same = _of(made, field) == _of_defaults(defaults, field)
        source = "ledger" if field in defaults.told else "usual"
        rows.append(
            (
                str(limit.what),
                f"{shown} {plan_unit(field, unit)}".strip(),
                source if same else "typed",
            )
        )
    columns = (name("figure"), figure("planned with", 3.0), name("by", 1.5))
    return ReportTable("planned with", "Planned with", columns, tuple(rows))


def _of(made: Forecast, field: str) -> object:
    if field in ("frames", "honey_g"):
        return [getattr(box, field) for box in made.plan.boxes]
    return getattr(made.plan, field)


def _of_defaults(defaults: Defaults, field: str) -> object:
    if field in ("frames", "honey_g"):
        return [getattr(box, field) for box in defaults.plan.boxes]
    return getattr(defaults.plan, field)
