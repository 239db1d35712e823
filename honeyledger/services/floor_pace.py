"""How fast a run goes, from the few scans there are, and when it will be through.

The next scan ends the pallet before: only pallets whose end was scanned say how fast it goes, so
the last one never does. A gap in which nobody can have worked at this pace (dinner, a scan that
was forgotten) is left out with its pallet and told. Who scans late gets no finish time, not a
wrong one.
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


def pace_of(view: View, balance: RunBalance, entries: Sequence[Entry], now_ms: int | None) -> Pace:
    """The pace of a run by its entries; `now_ms` is None once it is closed."""
    boxes = BoxFrames(view)
    frames = sum(row.supers * boxes.of(row.pull) for row in balance.loaded)
    end_ms = max(balance.last_ms, now_ms or 0)
    scans = _scans(entries, boxes)
    an_hour, left_out_ms = _timed(scans)
    return Pace(
        supers=balance.supers,
        frames=frames,
        loads=-(-frames // FRAMES_A_LOAD),
        minutes=max(0, end_ms - balance.first_ms) // 60_000 if balance.first_ms else 0,
        frames_an_hour=an_hour,
        left_out_minutes=left_out_ms // 60_000,
        since_ms=scans[-1].at_ms if scans else 0,
        last_frames=scans[-1].frames if scans else 0,
    )


def scanned_pace(view: View, entries: Sequence[Entry]) -> int:
    """Frames an hour of some entries of a run, gaps left out; 0 where no pallet's end is known."""
    return _timed(_scans(entries, BoxFrames(view)))[0]


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


def _timed(scans: Sequence[_Scan]) -> tuple[int, int]:
    """Frames an hour, and the milliseconds of gaps that were left out of it."""
    spans = [
        (this.frames, after.at_ms - this.at_ms)
        for this, after in pairwise(scans)
        if this.is_sure and after.is_sure and this.frames > 0
    ]
    if not spans:
        return 0, 0
    usual = median_low([took_ms / frames for frames, took_ms in spans])
    good = [
        (frames, took_ms)
        for frames, took_ms in spans
        if took_ms <= LONGEST_PALLET_MS and not is_pause(took_ms, usual * frames)
    ]
    frames, took_ms = sum(one for one, _ in good), sum(one for _, one in good)
    left_out_ms = sum(one for _, one in spans) - took_ms
    return (frames * HOUR_MS // took_ms if took_ms else 0), left_out_ms


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
