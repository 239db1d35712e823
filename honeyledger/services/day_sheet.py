"""What there is to do today, station by station, in the order of the line.

Everything on it follows from what is recorded: what waits too long, what was never read or
weighed, what is held, due or off. What is overdue stands first at its station. It says what to
look at and leaves it to a person what to do.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.domain.checks import ListedCheck, State
from honeyledger.domain.control import MOST
from honeyledger.domain.moments import format_day, house_day, say_day
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit, format_mass, format_moisture
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import YARD, key_of
from honeyledger.ledger.yard_log import TREATED, noted, told
from honeyledger.services.bottling import open_bottlings
from honeyledger.services.checks import CheckRow, check_rows
from honeyledger.services.drills import drill_due
from honeyledger.services.drums_page import DrumRow, drums_page
from honeyledger.services.floor import recent_runs
from honeyledger.services.holding import HoldRow, name_in
from honeyledger.services.hot_room_page import WaitsRow, hot_room_page
from honeyledger.services.labelling import head_text
from honeyledger.services.line import WAITS_TOO_LONG_MS
from honeyledger.services.orders import Order, open_orders
from honeyledger.services.recalls import case_heads
from honeyledger.services.season_books import SeasonBooks, season_books
from honeyledger.services.season_control import control_charts, out_of_usual
from honeyledger.services.season_losses import last_of, losses
from honeyledger.services.season_slips import slips
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View

YARDS, HOT_ROOM, EXTRACTION, DRUMS, BOTTLING, DISPATCH, CHECKS, RECALLS = (
    phrase("Yards"),
    phrase("Hot room"),
    phrase("Extraction"),
    phrase("Drums"),
    phrase("Bottling"),
    phrase("Dispatch"),
    phrase("Checks"),
    phrase("Recalls"),
)
STATIONS: tuple[str, ...] = (
    *(YARDS, HOT_ROOM, EXTRACTION, DRUMS),
    *(BOTTLING, DISPATCH, CHECKS, RECALLS),
)
OVERDUE, TODAY, SOON = 0, 1, 2
WHEN: tuple[str, ...] = (phrase("overdue"), phrase("today"), phrase("soon"))
SOON_DAYS = 7
DAYS_BACK = 7
HOUR_MS = 3_600_000
_HOLD_NAMED = 4


@dataclass(frozen=True, slots=True)
class ToDo:
    """One thing to do.

    Args:
        station: where, one of `STATIONS`.
        when: 0 overdue, 1 today, 2 soon; its word is `WHEN[when]`.
        what: in a sentence.
        codes: what it is about, where that has codes.
    """

    station: str
    when: int
    what: str
    codes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DaySheet:
    """A day's work, by station."""

    day: date
    house: str
    head: str
    unit: MassUnit
    rows: tuple[ToDo, ...]

    def at(self, station: str) -> tuple[ToDo, ...]:
        """What there is to do at a station."""
        return tuple(row for row in self.rows if row.station == station)

    @property
    def overdue(self) -> int:
        """How many things should have been done before."""
        return sum(row.when == OVERDUE for row in self.rows)


def day_sheet(view: View, now_ms: int, shipped: Sequence[ListedCheck]) -> DaySheet:
    """The sheet of the day; `shipped` are the checks that come with the program."""
    today = house_day(now_ms, rules_of(view).zone)
    unit = mass_unit(view)
    drums = drums_page(view, now_ms)
    books = season_books(view, today.year, now_ms)
    rows = [
        *_yards(view, today),
        *_hot_room(hot_room_page(view, now_ms).rows),
        *_extraction(view, now_ms, books),
        *_drums(drums.rows),
        *(_hold(hold, unit) for hold in drums.holds),
        *_bottling(view),
        *_dispatch(open_orders(view), today),
        *_checks(check_rows(view, now_ms, shipped), today),
        *_recalls(view, now_ms, today),
    ]
    order = {station: at for at, station in enumerate(STATIONS)}
    rows.sort(key=lambda row: (order[row.station], row.when))
    house = name_in(view, "house", "Honey house")
    return DaySheet(today, house, head_text(view), unit, tuple(rows))


def _yards(view: View, today: date) -> Iterator[ToDo]:
    """Treatments that come out or become clear: the days were typed off the label."""
    for record in view.marked("record", f"{YARD}/"):
        for mark in noted(view, record.subject, TREATED):
            clear = told(mark, "clear_day")
            if not clear or not today <= date.fromisoformat(clear) <= _soon(today):
                continue
            words = phrase(
                "{yard} is clear of {product} from {day} on",
                yard=name_in(view, record.subject),
                product=told(mark, "product"),
                day=say_day(clear),
            )
            when = TODAY if date.fromisoformat(clear) == today else SOON
            yield ToDo(YARDS, when, words, (key_of(record.subject),))


def _soon(today: date) -> date:
    return today + timedelta(days=SOON_DAYS)


def _hot_room(rows: Sequence[WaitsRow]) -> Iterator[ToDo]:
    for row in rows:
        wet = "" if row.moisture is None else format_moisture(row.moisture)
        where = row.spot or ", ".join(row.yards)
        if row.hours * HOUR_MS > WAITS_TOO_LONG_MS and not row.held:
            words = phrase(
                "waits for {hours} h, {where}: run it first", hours=row.hours, where=where
            )
            yield ToDo(HOT_ROOM, OVERDUE, words, (row.code,))
        elif row.state == "dry first":
            words = phrase("dry it first: {moisture}, {where}", moisture=wet, where=where)
            yield ToDo(HOT_ROOM, TODAY, words, (row.code,))


def _extraction(view: View, now_ms: int, books: SeasonBooks) -> Iterator[ToDo]:
    for run in recent_runs(view, now_ms):
        if run.closed_ms is None:
            day = format_day(house_day(run.opened_ms, books.zone))
            is_old = house_day(run.opened_ms, books.zone) < books.today
            words = phrase("open on {line} since {day}: close it", line=run.line_name, day=day)
            yield ToDo(EXTRACTION, OVERDUE if is_old else TODAY, words, (run.code,))
    since = books.today - timedelta(days=DAYS_BACK)
    before = last_of(view, books.season - 1, books.zone, MOST)
    for _, judged in out_of_usual(control_charts(losses(books).runs, before)):
        if judged.run.day >= since:
            yield ToDo(EXTRACTION, TODAY, judged.look, (judged.run.code,))
    for slip in slips(books):
        if slip.stack.day >= since:
            likely = slip.likely or phrase("no slip explains it")
            words = phrase("weight a super far off the others: {likely}", likely=likely)
            yield ToDo(EXTRACTION, TODAY, words, (slip.stack.code,))


def _drums(rows: Sequence[DrumRow]) -> Iterator[ToDo]:
    words = {
        "not weighed": phrase("weigh what was to follow"),
        "not closed": phrase("close it, or fill it up"),
        "not read": phrase("sample it: moisture and colour were not read"),
    }
    for state, what in words.items():
        codes = tuple(row.code for row in rows if row.state == state)
        if codes:
            yield ToDo(DRUMS, TODAY, what, codes)
    missing = tuple(row.code for row in rows if row.missing)
    if missing:
        yield ToDo(DRUMS, OVERDUE, phrase("not found on the last walk: look for it"), missing)


def _hold(hold: HoldRow, unit: MassUnit) -> ToDo:
    words = phrase(
        "decide the hold on {name}: {reason} ({mass} here)",
        name=hold.name,
        reason=hold.reason,
        mass=format_mass(hold.grams, unit),
    )
    return ToDo(DRUMS, TODAY, words, hold.on_hand[:_HOLD_NAMED] or (hold.target,))


def _bottling(view: View) -> Iterator[ToDo]:
    for one in open_bottlings(view):
        words = phrase("bottling of {product} is open: close it", product=one.product.name)
        yield ToDo(BOTTLING, TODAY, words, (one.code,))


def _dispatch(orders: Sequence[Order], today: date) -> Iterator[ToDo]:
    for order in orders:
        if order.due is not None and order.due > _soon(today):
            continue
        words = phrase(
            "order {name} of {customer}: {goods}",
            name=order.name,
            customer=order.customer,
            goods=order.goods or phrase("nobody said what"),
        )
        when = TODAY
        if order.due is not None:
            words = phrase("{order}, due {day}", order=words, day=format_day(order.due))
            when = OVERDUE if order.due < today else TODAY if order.due == today else SOON
        yield ToDo(DISPATCH, when, words)


def _checks(rows: Sequence[CheckRow], today: date) -> Iterator[ToDo]:
    for row in rows:
        name = f"{row.check.name}, {row.name}" if row.name else row.check.name
        codes = (row.equipment,) if row.equipment else ()
        words = {
            State.OFF: phrase(
                "{check}: found off, put it right and look at what used it", check=name
            ),
            State.OVERDUE: phrase("{check}: overdue", check=name),
            State.DUE: phrase("{check}: due today", check=name),
            State.NEVER: phrase("{check}: never made", check=name),
        }
        if row.state in words:
            when = OVERDUE if row.state in (State.OFF, State.OVERDUE) else TODAY
            yield ToDo(CHECKS, when, words[row.state], codes)
        elif row.due is not None and row.due <= _soon(today):
            due = format_day(row.due)
            yield ToDo(CHECKS, SOON, phrase("{check}: due {day}", check=name, day=due), codes)


def _recalls(view: View, now_ms: int, today: date) -> Iterator[ToDo]:
    for head in case_heads(view):
        if not head.is_closed:
            words = phrase("the case about {about} is open", about=head.about)
            yield ToDo(RECALLS, TODAY, words, (head.code,))
    drill = drill_due(view, now_ms)
    if drill.is_due:
        since = phrase("a recall was never rehearsed: do it from a jar that was sent")
        if drill.day is not None:
            day = format_day(drill.day)
            since = phrase("a recall is to be rehearsed since {day}", day=day)
        yield ToDo(RECALLS, OVERDUE if drill.day and drill.day < today else TODAY, since)
    elif drill.day is not None and drill.day <= _soon(today):
        day = format_day(drill.day)
        yield ToDo(RECALLS, SOON, phrase("a recall is to be rehearsed by {day}", day=day))
