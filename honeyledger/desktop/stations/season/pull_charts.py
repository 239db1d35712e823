"""Which yards to pull next, drawn as the truck goes; and what there is to do today."""

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Part
from honeyledger.desktop.models.days import format_day, short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import counted, tr
from honeyledger.domain.units import format_moisture, format_number
from honeyledger.services.pulling import NotYet, PullingPlan, Stop, Trip
from honeyledger.services.pulling_yards import NEVER
from honeyledger.services.season_page import SeasonPage


def _none() -> str:
    return tr(
        "No yard has supers on it, by what is recorded. Say under Yards (Ctrl+1) what went on."
    )


def pulling_chart(page: SeasonPage) -> Chart:
    """A bar a yard, in the order of the road, day after day; then those left for later."""
    plan = page.pulling
    items: list[ChartItem] = []
    if plan is not None:
        for trip in plan.trips:
            items += [_stop_item(at, stop, trip) for at, stop in enumerate(trip.stops, 1)]
        items += [_later_item(one) for one in plan.not_yet]
    return Chart(
        ChartForm.BARS,
        tr("Yards to pull next"),
        tr("Supers"),
        "",
        (
            ChartHead(tr("Yard"), is_number=False),
            ChartHead(tr("Day"), is_number=False),
            ChartHead(tr("Supers")),
            ChartHead(tr("Way"), "km", from_width=440),
            ChartHead(tr("Look"), is_number=False, under=True),
        ),
        tuple(items),
        series=(tr("ready"), tr("fresh supers"), tr("was wet"), tr("later")) if items else (),
        empty=_none(),
    )


def _stop_item(at: int, stop: Stop, trip: Trip) -> ChartItem:
    yard, day = stop.yard, short_day(trip.day)
    look = _look(stop)
    way = "" if stop.tenths_km is None else format_number(round(stop.tenths_km / 10))
    supers = counted(stop.supers, tr("1 super"), tr("{n} supers"))
    words = tr("{day}, stop {n}: {yard}, {supers}")
    said = [words.format(day=day, n=at, yard=yard.name, supers=supers)]
    if way:
        said.append(tr("{km} km from the one before").format(km=way))
    return ChartItem(
        key=f"{trip.day.isoformat()} {yard.code}",
        name=f"{day} · {at} · {yard.name}",
        spoken=", ".join([*said, *([look] if look else [])]),
        cells=(yard.name, day, format_number(stop.supers), way, look),
        parts=(Part(yard.risk, float(stop.supers)),),
        words=supers,
        opens=yard.code,
    )


def _look(stop: Stop) -> str:
    yard = stop.yard
    said = [tr("fresh supers")] if yard.risk == 1 else []
    if yard.moisture is not None:
        words = tr("was {moisture}")
        said.append(words.format(moisture=format_moisture(yard.moisture)))
    if yard.guessed:
        said.append(tr("supers guessed"))
    if yard.supers > stop.supers:
        said.append(tr("{n} stay").format(n=format_number(yard.supers - stop.supers)))
    return ", ".join(said)


def _later_item(one: NotYet) -> ChartItem:
    never = one.yard.ready == NEVER
    day, why = tr("later") if never else short_day(one.yard.ready), say(one.why)
    supers = counted(one.supers, tr("1 super"), tr("{n} supers"))
    return ChartItem(
        key=f"later {one.yard.code}",
        name=f"{tr('later')} · {one.yard.name}",
        spoken=f"{one.yard.name}, {supers}: {why}",
        cells=(one.yard.name, day, format_number(one.supers), "", why),
        parts=(Part(3, float(one.supers)),),
        words=supers,
        opens=one.yard.code,
    )


def pulling_answer(page: SeasonPage) -> str:
    """The next truck, or why there is none."""
    plan = page.pulling
    if not page.is_now:
        words = tr("{season} is over: what is to be pulled is a question of this season.")
        return words.format(season=page.season)
    if plan is None:
        return tr("Looking at the yards.")
    if not plan.trips:
        if not plan.not_yet:
            return _none()
        words = tr("Nothing can be pulled in these days; {yards} for later.")
        later = counted(len(plan.not_yet), tr("one yard is"), tr("{n} yards are"))
        return words.format(yards=later)
    trip = plan.trips[0]
    words = tr("{day}: {supers} from {yards}.")
    if trip.tenths_km:
        words = tr("{day}: {supers} from {yards}, some {km} km by road.")
    return words.format(
        day=format_day(trip.day),
        supers=counted(trip.supers, tr("1 super"), tr("{n} supers")),
        yards=counted(len(trip.stops), tr("one yard"), tr("{n} yards")),
        km=format_number(round(trip.tenths_km / 10)),
    )


def pulling_figures(page: SeasonPage) -> list[KeyFigure]:
    """What it was planned with."""
    plan = page.pulling
    if plan is None:
        return []
    figures = [
        KeyFigure(format_number(plan.truck), tr("supers the truck takes")),
        KeyFigure(format_number(plan.waiting), tr("in the house now")),
    ]
    if plan.room is not None:
        figures.append(KeyFigure(format_number(plan.room), tr("supers in a full hot room")))
    return figures


def pulling_notes(page: SeasonPage) -> list[Message]:
    """What was not known, and that a look decides."""
    plan = page.pulling
    if plan is None:
        return []
    text = tr("looks under the lid: pull what is capped, read what is not, lift with two.")
    return [*_says(plan), Message(Mark.NOTE, tr("Whoever drives"), text)]


def _says(plan: PullingPlan) -> list[Message]:
    return [Message(Mark.NOTE, tr("Planned:"), say(said)) for said in plan.says]
