"""What goes in next, and the figures of a run's pace: when it will be through."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import clock_time, short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.domain.moments import day_of, moment_at
from honeyledger.domain.units import format_moisture, format_number
from honeyledger.services.floor_pace import Ahead, Pace, ahead
from honeyledger.services.floor_page import QueueRow

HOUR_MS = 3_600_000
SEPARATOR = ", "
MOST_NAMED = 2
READY, DRY_FIRST, HOLD = "ready", "dry first", "hold"
_MARKS = {READY: Mark.READY, DRY_FIRST: Mark.WARNING, HOLD: Mark.HOLD}
NOT_YET = "–"
SHIFT_MIN = 12 * 60
"""A span longer than a shift says nothing any more: then the moment is named."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("extraction", text)


# The queue.


def queue_columns(now_ms: int, order: Sequence[str]) -> tuple[Column[QueueRow], ...]:
    """The queue's columns; the waiting time is as of now, the place as the hot room ordered it."""
    place: Column[QueueRow] = Column(
        "next",
        _tr("Next"),
        lambda row: _place(order, row.pallet),
        ColumnKind.NUMBER,
        unit=_tr("run"),
    )
    return (
        Column("code", _tr("Pallet"), lambda row: row.pallet, ColumnKind.CODE),
        Column(
            "yards",
            _tr("Yards"),
            lambda row: row.yards.split(SEPARATOR)[0],
            ColumnKind.NAME,
            note=about_pallet,
            mark=lambda row: _MARKS[row.state],
        ),
        *((place,) if order else ()),
        Column("supers", _tr("Supers"), lambda row: str(row.supers), ColumnKind.NUMBER),
        Column(
            "hours",
            _tr("Waits"),
            lambda row: str(max(0, now_ms - row.since_ms) // HOUR_MS),
            ColumnKind.NUMBER,
            unit="h",
        ),
    )


def _place(order: Sequence[str], code: str) -> str:
    return str(order.index(code) + 1) if code in order else ""


def about_pallet(row: QueueRow) -> str:
    """What speaks against a pallet, and the other yards on it; nothing for a plain one."""
    parts = []
    if row.state == HOLD:
        parts.append(_tr("hold: asks who and why"))
    elif row.state == DRY_FIRST and row.moisture is not None:
        parts.append(_tr("dry first: {moisture}").format(moisture=format_moisture(row.moisture)))
    others = row.yards.split(SEPARATOR)[1:]
    if len(others) > MOST_NAMED:
        parts.append(_tr("and {n} other yards").format(n=len(others)))
    elif others:
        parts.append(_tr("and {yards}").format(yards=SEPARATOR.join(others)))
    return "; ".join(parts)


def waiting_frames(queue: Sequence[QueueRow], order: Sequence[str]) -> int:
    """Frames of what goes in next: the next run as ordered, else all that is ready."""
    ordered = [row for row in queue if row.pallet in order]
    rows = ordered or [row for row in queue if row.state == READY]
    return sum(row.frames for row in rows)


# The pace.


def pace_heading(pace: Pace, *, is_open: bool) -> str:
    """How many loads there were, and what was left out of the pace."""
    loads = _tr("1 load") if pace.loads == 1 else _tr("{n} loads")
    words = _tr("{loads} of 30 frames so far") if is_open else _tr("{loads} of 30 frames")
    words = words.format(loads=loads.format(n=format_number(pace.loads)))
    if pace.left_out_minutes:
        left_out = _tr("{time} without a scan left out of the pace")
        words += "; " + left_out.format(time=hours_words(pace.left_out_minutes))
    if pace.stood_minutes:
        words += "; " + _tr("stood {time}").format(time=hours_words(pace.stood_minutes))
    return words


def pace_figures(pace: Pace) -> list[KeyFigure]:
    """Frames an hour and minutes a load, both once a second pallet was scanned."""
    if not pace.frames_an_hour:
        return [KeyFigure(NOT_YET, _tr("frames an hour, from the second pallet on"))]
    tenths = pace.tenths_a_load
    return [
        KeyFigure(format_number(pace.frames_an_hour), _tr("frames an hour")),
        KeyFigure(f"{tenths // 10}.{tenths % 10} min", _tr("a load")),
    ]


def ahead_figures(pace: Pace, waiting: int, now_ms: int, zone: str) -> list[KeyFigure]:
    """Frames that are left, and when they are through; honest where scans are missing."""
    to_come = ahead(pace, waiting, now_ms)
    frames = KeyFigure(f"≈ {format_number(to_come.frames)}", _tr("frames left"))
    return [frames, _finish(to_come, pace.since_ms, zone)] if pace.frames_an_hour else [frames]


def _finish(to_come: Ahead, since_ms: int, zone: str) -> KeyFigure:
    if to_come.finish_ms is None and to_come.silent_minutes > SHIFT_MIN:
        since = _tr("no pallet scanned since {when}")
        return KeyFigure(NOT_YET, since.format(when=moment_words(since_ms, zone)))
    if to_come.finish_ms is None:
        silent = _tr("no pallet scanned for {time}")
        return KeyFigure(NOT_YET, silent.format(time=hours_words(to_come.silent_minutes)))
    time = clock_time(moment_at(to_come.finish_ms, zone))
    return KeyFigure(f"≈ {time}", _tr("through at this pace"))


def took_figure(pace: Pace, first_ms: int, zone: str) -> KeyFigure:
    """How long a run took, or since when it goes on where that is longer than a shift."""
    if pace.minutes > SHIFT_MIN:
        return KeyFigure(moment_words(first_ms, zone), _tr("when it began"))
    return KeyFigure(hours_words(pace.minutes), _tr("first to last"))


def moment_words(at_ms: int, zone: str) -> str:
    """A moment of this season: "12 Sep, 14:20"."""
    moment = moment_at(at_ms, zone)
    return f"{short_day(day_of(moment))}, {clock_time(moment)}"


def hours_words(minutes: int) -> str:
    """A span of time: "45 min", "2 h 10 min"."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return _tr("{m} min").format(m=rest)
    return _tr("{h} h {m:02d} min").format(h=hours, m=rest)
