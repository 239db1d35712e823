"""From the hot room's page to its table, its heading, and the figures under the table."""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.hot_room.order import Order
from honeyledger.desktop.stations.hot_room.words import bare, counted, tr
from honeyledger.domain.air import BALANCE, DRIES, HOLDS, WETS, balance_humidity, balance_moisture
from honeyledger.domain.beetles import HELD_BACK, IN_TIME
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_moisture,
    format_number,
    format_temperature,
)
from honeyledger.ledger.verbs.hot_room import HOT
from honeyledger.services.hot_room_page import HotRoomPage, RoomNow, WaitsRow

_MARKS = {"hold": Mark.HOLD, "dry first": Mark.WARNING, "waits too long": Mark.WAITING}
_YARDS_NAMED = 2


def wait_columns(unit: MassUnit, order: Order) -> tuple[Column[WaitsRow], ...]:
    """The table's columns: its place in the next run, what it is, how long, how wet."""
    return (
        Column("code", tr("Pallet"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            state_word,
            ColumnKind.STATE,
            mark=lambda row: _MARKS.get(row.state, Mark.READY),
        ),
        Column(
            "yards",
            tr("Yards"),
            yards_named,
            ColumnKind.NAME,
            note=under_name,
            least=80,
        ),
        Column(
            "next",
            tr("Next"),
            lambda row: _place(order.number(row.code)),
            ColumnKind.NUMBER,
            unit=tr("run"),
        ),
        Column(
            "hours",
            tr("Waits"),
            lambda row: format_number(row.hours),
            ColumnKind.NUMBER,
            unit="h",
        ),
        Column(
            "moisture",
            tr("Moist."),
            lambda row: _percent(row.moisture),
            ColumnKind.NUMBER,
            unit="%",
        ),
        Column(
            "supers",
            tr("Supers"),
            lambda row: format_number(row.supers),
            ColumnKind.NUMBER,
            from_width=760,
        ),
        Column(
            "grams",
            tr("Honey"),
            lambda row: bare(row.grams, unit, 0),
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda _row: True,
        ),
    )


def _place(number: int) -> str:
    return str(number) if number else ""


def _percent(moisture: int | None) -> str:
    return "" if moisture is None else format_moisture(moisture).removesuffix(" %")


def state_word(row: WaitsRow) -> str:
    """A state in a word or two."""
    return tr("too long") if row.state == "waits too long" else tr(row.state)


def yards_named(row: WaitsRow) -> str:
    """A yard's name, or how many they are: then their names stand below, where there is room."""
    return row.yards[0] if len(row.yards) == 1 else counted(len(row.yards), "", tr("{n} yards"))


def under_name(row: WaitsRow) -> str:
    """What to know of a pallet, and the yards of one that has several."""
    yards = ", ".join(row.yards) if len(row.yards) > 1 else ""
    return "; ".join(part for part in (reason(row), yards) if part)


def reason(row: WaitsRow) -> str:
    """What to know of a pallet: its holds, what the air does to it, where it stands.

    A hold of its only yard is said without the yard, whose name stands above it.
    """
    parts = [say(held) for held in row.held]
    if len(row.yards) == 1:
        parts = [held.removeprefix(f"{row.yards[0]}: ") for held in parts]
    # Of what may not go through nobody plans the drying, and its hold takes the room.
    if not row.held:
        parts += [words for words in (air_words(row.air), dry_words(row)) if words]
    if beetle := beetle_words(row):
        parts.append(beetle)
    if row.spot:
        parts.append(row.spot)
    return "; ".join(parts)


def air_words(air: str) -> str:
    """What the air does, in words."""
    words = {
        DRIES: tr("the air dries it"),
        WETS: tr("the air wets it"),
        HOLDS: tr("the air leaves it as it is"),
    }
    return words.get(air, "")


def beetle_words(row: WaitsRow) -> str:
    """How long until damage by the small hive beetle is likely; "" while there is no hurry."""
    if row.beetle is None or row.beetle.state == IN_TIME:
        return ""
    if row.beetle.state == HELD_BACK:
        return tr("dry air holds hive beetles back")
    if not row.beetle.left:
        return tr("hive beetle damage is likely")
    return tr("{n} h until hive beetle damage is likely").format(n=row.beetle.left)


def dry_words(row: WaitsRow) -> str:
    """How long a pallet needs yet until it is dry enough; "" where nothing can be said."""
    if row.to_dry is None:
        return ""
    if row.to_dry.why_not:
        return tr("read it again for its hours") if row.to_dry.too_few else ""
    target = format_moisture(row.to_dry.target)
    soonest, latest = row.to_dry.soonest_h, row.to_dry.latest_h
    if soonest == latest:
        return tr("{target} in {n} h").format(target=target, n=latest)
    return tr("{target} in {n} to {last} h").format(target=target, n=soonest, last=latest)


def yards_words(yards: Sequence[str]) -> str:
    """Yards by name, or how many where there are more than a few."""
    if len(yards) > _YARDS_NAMED:
        return counted(len(yards), "", tr("{n} yards"))
    return ", ".join(yards)


def heading(page: HotRoomPage) -> str:
    """What waits, in all."""
    pallets = counted(len(page.rows), tr("One pallet waits"), tr("{n} pallets wait"))
    mass = format_mass(sum(row.grams for row in page.rows), page.unit, 0)
    return tr("{pallets}, ≈ {mass}").format(pallets=pallets, mass=mass)


def totals(rows: Sequence[WaitsRow], order: Order, unit: MassUnit) -> tuple[str, dict[str, Total]]:
    """Of the next run where one is ordered, else of all that waits."""
    chosen = [row for row in rows if order.number(row.code)]
    counted_rows = chosen or list(rows)
    words = tr("All that waits")
    if chosen:
        yards = len(frozenset[str]().union(*(row.sources for row in chosen)))
        pallets = counted(len(chosen), tr("1 pallet"), tr("{n} pallets"))
        tied = counted(yards, tr("1 yard tied"), tr("{n} yards tied"))
        words = tr("Next run: {pallets}, {tied}").format(pallets=pallets, tied=tied)
    return words, {
        "supers": Total(format_number(sum(row.supers for row in counted_rows))),
        "grams": Total(bare(sum(row.grams for row in counted_rows), unit, 0), estimated=True),
    }


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure and what it is."""

    figure: str
    meaning: str


def air_figures(room: RoomNow | None) -> list[Figure]:
    """The air as it was read last, and the moisture honey comes to in it."""
    if room is None or room.read is None:
        return []
    figures = []
    if room.temperature is not None:
        figures.append(Figure(format_temperature(room.temperature), tr("temperature")))
    if room.humidity is not None:
        figures.append(Figure(format_moisture(room.humidity), tr("humidity")))
        figures.append(Figure(_comes_to(room.humidity), tr("honey comes to")))
    return figures


def _comes_to(humidity: int) -> str:
    """The moisture honey comes to in such air; beyond the table, only which side it is on."""
    balance = balance_moisture(humidity)
    if balance is not None:
        return format_moisture(balance)
    (driest, dry_air), (wettest, _) = BALANCE[0], BALANCE[-1]
    if humidity < dry_air:
        return tr("under {moisture}").format(moisture=format_moisture(driest))
    return tr("over {moisture}").format(moisture=format_moisture(wettest))


def air_heading(room: RoomNow | None, row: WaitsRow | None) -> str:
    """What to mind of the air: heat, then the pallet in hand, then when it was read."""
    if room is None or room.read is None:
        return tr("Nobody has read the air yet: type it at the left.")
    if room.temperature is not None and room.temperature > HOT:
        return tr("Above 40 °C combs sag and honey suffers: let it cool, and mind your people.")
    trend = row.to_dry if row is not None else None
    if row is not None and trend is not None and trend.why_not and not trend.too_few:
        return f"{row.code}: {trend.why_not}"
    if row is not None and row.moisture is not None and room.humidity is not None and row.air:
        balance = balance_humidity(row.moisture)
        words = tr("{code}: {air}")
        if balance is not None:
            words = tr("{code}: {air}; {moisture} is in balance with {humidity} (clover honey)")
        return words.format(
            code=row.code,
            air=air_words(row.air),
            moisture=format_moisture(row.moisture),
            humidity=format_moisture(balance or 0, 0),
        )
    return tr("{room}, read {when}").format(room=room.name, when=format_moment(room.read))


def waits_words(rows: Sequence[WaitsRow]) -> str:
    """What to mind of pallets that wait too long; "" where none does."""
    long = [row for row in rows if row.state == "waits too long"]
    if not long:
        return ""
    pallets = counted(len(long), tr("One pallet waits"), tr("{n} pallets wait"))
    words = tr("{pallets} longer than 3 days: small hive beetle may have begun; look at it first.")
    return words.format(pallets=pallets)
