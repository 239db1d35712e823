"""How fast a run goes, from the few scans there are, and when it will be through.

The next scan ends the pallet before: only pallets whose end was scanned say how fast it goes, so
the last one never does. Minutes for which somebody said that the line stood still are taken off
their pallet. A gap in which nobody can have worked at this pace (dinner, a scan that was
forgotten) is left out with its pallet and told. Who scans late gets no finish time, not a wrong
one.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median_low

from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.run_balance import RunBalance
from honeyledger.services.store import View

FRAMES_A_LOAD = 30  # a medium radial extractor, common practice, no source
USUAL_FRAMES = 9
# A pallet that takes so many times its usual time, and so long, waited for somebody; common
# practice, no source.
PAUSE_TIMES = 3
SHORTEST_PAUSE_MS = 30 * 60_000
# Alone there is nothing to compare with; nobody takes so long over one pallet.
LONGEST_PALLET_MS = 4 * 3_600_000
HOUR_MS = 3_600_000


@dataclass(frozen=True, slots=True)
class Pace:
    """Frames, loads and time so far, by arithmetic from what was scanned.

    Args:
        minutes: from the first thing recorded to the last, or to now.
        frames_an_hour: over the pallets whose end was scanned; 0 while there is none.
        left_out_minutes: gaps that were not counted.
        stood_minutes: for which somebody said that the line stood still.
        since_ms, last_frames: when the pallet that goes through now was scanned, and its frames.
    """

    supers: int = 0
    frames: int = 0
    loads: int = 0
    minutes: int = 0
    frames_an_hour: int = 0
    left_out_minutes: int = 0
    since_ms: int = 0
    last_frames: int = 0
    stood_minutes: int = 0

    @property
    def tenths_a_load(self) -> int:
        """Tenths of a minute a load takes; 0 while nobody knows."""
        return FRAMES_A_LOAD * 600 // self.frames_an_hour if self.frames_an_hour else 0


@dataclass(frozen=True, slots=True)
class Ahead:
    """What is still to go through: frames, and when; `silent_minutes` where scans are missing."""

    frames: int
    finish_ms: int | None = None
    silent_minutes: int = 0


class BoxFrames:
    """Frames in a super of a pull, by its box's record now."""

    def __init__(self, view: View) -> None:
        self._view = view
        self._by_box: dict[str, int] = {}

    def of_box(self, box: str) -> int:
        """Frames in a box; of one that nobody described, the usual ones."""
        if box not in self._by_box:
            mark = self._view.mark(f"box/{box}", "record")
            record = mark.value if mark and isinstance(mark.value, Mapping) else {}
            each = record.get("frames", USUAL_FRAMES)
            self._by_box[box] = each if isinstance(each, int) and each else USUAL_FRAMES
        return self._by_box[box]

    def of(self, lot: int) -> int:
        """Frames in one super of a pull."""
        return self.of_box(str(self._view.lot(lot).attributes.get("box", "")))


@dataclass(frozen=True, slots=True)
class _Scan:
    at_ms: int
    frames: int
    is_sure: bool


@dataclass(frozen=True, slots=True)
class Stretch:
    """From one scan to the next: frames, and how long they took without what is said of stops."""

    since_ms: int
    until_ms: int
    frames: int
    took_ms: int


@dataclass(frozen=True, slots=True)
class Stretches:
    """A run's stretches whose end was scanned: those that say how fast it goes, and the gaps."""

    good: tuple[Stretch, ...] = ()
    gaps: tuple[Stretch, ...] = ()

    @property
    def frames_an_hour(self) -> int:
        """Gaps left out; 0 where nobody knows."""
        took_ms = sum(one.took_ms for one in self.good)
        return sum(one.frames for one in self.good) * HOUR_MS // took_ms if took_ms else 0


def pace_of(view: View, balance: RunBalance, entries: Sequence[Entry], now_ms: int | None) -> Pace:
    """The pace of a run by its entries; `now_ms` is None once it is closed."""
    boxes = BoxFrames(view)
    frames = sum(row.supers * boxes.of(row.pull) for row in balance.loaded)
    end_ms = max(balance.last_ms, now_ms or 0)
    scans = _scans(entries, boxes)
    stretches = _timed(scans, stood_of(entries))
    return Pace(
        supers=balance.supers,
        frames=frames,
        loads=-(-frames // FRAMES_A_LOAD),
        minutes=max(0, end_ms - balance.first_ms) // 60_000 if balance.first_ms else 0,
        frames_an_hour=stretches.frames_an_hour,
        left_out_minutes=sum(one.took_ms for one in stretches.gaps) // 60_000,
        since_ms=scans[-1].at_ms if scans else 0,
        last_frames=scans[-1].frames if scans else 0,
        stood_minutes=sum(until - since for since, until in stood_of(entries)) // 60_000,
    )


def scanned_pace(view: View, entries: Sequence[Entry]) -> int:
    """Frames an hour of some entries of a run, gaps left out; 0 where no pallet's end is known."""
    return stretches_of(view, entries).frames_an_hour


def stretches_of(view: View, entries: Sequence[Entry]) -> Stretches:
    """What a run's scans say of its pace, stretch by stretch."""
    return _timed(_scans(entries, BoxFrames(view)), stood_of(entries))


def stretches_between(scans: Sequence[tuple[int, int]]) -> Stretches:
    """The same of scans as (milliseconds, frames), all of them sure, in their order."""
    return _timed([_Scan(at_ms, frames, is_sure=True) for at_ms, frames in scans], ())


def stood_of(entries: Sequence[Entry]) -> list[tuple[int, int]]:
    """From when to when the line stood still, as it was said; each minute once."""
    spans = []
    for entry in entries:
        said = entry.facts.get("said", {})
        if entry.kind == "stop" and isinstance(said, Mapping):
            until_ms = entry.act.happened.at_ms
            spans.append((until_ms - int(str(said["minutes"])) * 60_000, until_ms))
    apart: list[tuple[int, int]] = []
    for since_ms, until_ms in sorted(spans):
        if apart and since_ms <= apart[-1][1]:
            apart[-1] = (apart[-1][0], max(until_ms, apart[-1][1]))
        else:
            apart.append((since_ms, until_ms))
    return apart


def _scans(entries: Sequence[Entry], boxes: BoxFrames) -> list[_Scan]:
    """Every moment at which supers went in, in the order in which they did."""
    by_time: dict[int, _Scan] = {}
    for entry in entries:
        if entry.kind != "load":
            continue
        at_ms, is_sure = entry.act.happened.at_ms, not entry.act.unsure_ms
        frames = -sum(
            int(str(n)) * boxes.of(int(str(lot))) for _, lot, n in rows_of(entry, "pieces")
        )
        before = by_time.get(at_ms, _Scan(at_ms, 0, is_sure=True))
        by_time[at_ms] = _Scan(at_ms, before.frames + frames, before.is_sure and is_sure)
    return [by_time[at_ms] for at_ms in sorted(by_time)]


def _timed(scans: Sequence[_Scan], stood: Sequence[tuple[int, int]]) -> Stretches:
    """Every stretch whose beginning and end are sure, those apart in which nobody worked."""
    found = []
    for this, after in pairwise(scans):
        if this.is_sure and after.is_sure and this.frames > 0:
            said_ms = sum(
                max(0, min(until_ms, after.at_ms) - max(since_ms, this.at_ms))
                for since_ms, until_ms in stood
            )
            took_ms = after.at_ms - this.at_ms - said_ms
            found.append(Stretch(this.at_ms, after.at_ms, this.frames, took_ms))
    if not found:
        return Stretches()
    usual = median_low([one.took_ms / one.frames for one in found])
    good = tuple(
        one
        for one in found
        if one.took_ms <= LONGEST_PALLET_MS and not is_pause(one.took_ms, usual * one.frames)
    )
    return Stretches(good, tuple(one for one in found if one not in good))


def is_pause(took_ms: float, usual_ms: float) -> bool:
    """Whether somebody must have waited, or a scan been forgotten."""
    return took_ms > SHORTEST_PAUSE_MS and took_ms > PAUSE_TIMES * usual_ms


def ahead(pace: Pace, waiting_frames: int, now_ms: int) -> Ahead:
    """What is still to go through: the pallet at the uncapper and those that wait."""
    an_hour, since_ms = pace.frames_an_hour, now_ms - pace.since_ms
    if not an_hour:
        return Ahead(pace.last_frames + waiting_frames)
    if is_pause(since_ms, pace.last_frames * HOUR_MS / an_hour):
        return Ahead(waiting_frames, silent_minutes=since_ms // 60_000)
    through = max(0, since_ms) * an_hour // HOUR_MS
    frames = max(0, pace.last_frames - through) + waiting_frames
    return Ahead(frames, now_ms + frames * HOUR_MS // an_hour)
