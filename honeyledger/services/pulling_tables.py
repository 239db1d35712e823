"""A plan of pulls as tables: for the terminal, and as a truck sheet to drive with."""

from honeyledger.domain.moments import format_day
from honeyledger.domain.units import format_moisture, format_number, format_weight
from honeyledger.services.pulling import NotYet, PullingPlan, Stop, Trip
from honeyledger.services.pulling_yards import NEVER
from honeyledger.services.report_tables import Report, ReportTable, cells, figure, name

LOOK = (
    "A plan, no order: look under the lid, pull what is capped, read what is not. Lift with two; "
    "labels of treatments and your local code decide."
)
_RISKS = {0: "", 1: "fresh supers", 2: "was wet"}


def truck_sheet(plan: PullingPlan) -> Report:
    """The plan to drive with: a box to tick at each yard, and room for what was pulled."""
    return Report(
        title="Truck sheet",
        house=plan.house,
        head=plan.head,
        facts=plan_facts(plan),
        says=(LOOK, *plan.says),
        tables=pulling_tables(plan),
        ticks=True,
        sign=("Driver", "Truck", "Back at"),
    )


def truck_day(plan: PullingPlan) -> str:
    """The day of the first trip, by which the sheet is on record; "" where there is none."""
    return plan.trips[0].day.isoformat() if plan.trips else ""


def plan_facts(plan: PullingPlan) -> tuple[tuple[str, str], ...]:
    """What the plan was made with."""
    room = "not known" if plan.room is None else f"{format_number(plan.room)} supers"
    return (
        ("Truck takes", f"{format_number(plan.truck)} supers"),
        ("Hot room takes", room),
        ("In the house now", f"{format_number(plan.waiting)} supers"),
        ("Line puts through", _a_day(plan)),
    )


def _a_day(plan: PullingPlan) -> str:
    return f"{format_number(plan.a_day)} supers a day" if plan.a_day else "not known"


def pulling_tables(plan: PullingPlan) -> tuple[ReportTable, ...]:
    """A table a day, then the yards that are left for later."""
    none = "Nothing can be pulled in these days."
    trips = [_trip(at, trip, plan) for at, trip in enumerate(plan.trips)]
    empty = ReportTable("trip 1", "On the truck", _COLUMNS, (), none=none)
    return (*(trips or [empty]), _later(plan))


_COLUMNS = (
    name("", 0.8),
    name("yard", 4),
    name("place", 3),
    figure("supers", 1.8),
    figure("honey", 2.4),
    figure("km", 1.4),
    name("look", 4),
    name("pulled", 2.2),
)


def _trip(at: int, trip: Trip, plan: PullingPlan) -> ReportTable:
    rows = [(number, stop) for number, stop in enumerate(trip.stops, 1)]

    def row(one: tuple[int, Stop]) -> tuple[str, ...]:
        number, stop = one
        yard = stop.yard
        share = yard.grams * stop.supers // yard.supers
        look = [_RISKS[yard.risk]] if yard.risk else []
        if yard.moisture is not None:
            look.append(format_moisture(yard.moisture))
        look += ["supers guessed"] if yard.guessed else []
        look += [f"{format_number(yard.supers - stop.supers)} stay"] * (yard.supers > stop.supers)
        return (
            str(number),
            yard.name,
            yard.place,
            format_number(stop.supers),
            format_weight(share, plan.unit) if share else "",
            "" if stop.tenths_km is None else format_number(round(stop.tenths_km / 10)),
            ", ".join(look),
            "",
        )

    way = format_number(round(trip.tenths_km / 10)) if trip.tenths_km else ""
    honey = format_weight(trip.grams, plan.unit) if trip.grams else ""
    total = ("", "in all", "", format_number(trip.supers), honey, way, "", "")
    return ReportTable(f"trip {at + 1}", format_day(trip.day), _COLUMNS, cells(rows, row), total)


def _later(plan: PullingPlan) -> ReportTable:
    def row(one: NotYet) -> tuple[str, ...]:
        never = one.yard.ready == NEVER
        day = "not known" if never else format_day(one.yard.ready)
        return one.yard.name, format_number(one.supers), day, one.why

    columns = (name("yard", 4), figure("supers", 1.6), name("from", 2.8), name("why", 7))
    rows = cells(plan.not_yet, row)
    none = "No yard with supers is left for later."
    return ReportTable("later", "Later", columns, rows, none=none)
