"""Loads the sample season: an invented house's own tables, through the imports and verbs of all.

Every row is recorded as it was: by whom, when it happened, and when it was typed, which the
house's clock follows. So the same files give the same digests in every ledger of one id.

"Now" in the sample is Friday, 25 September 2026, 15:40 in the house: run 26 is open, pallets wait
in the hot room, a bottling runs, some drums are held, and today's have no readings yet.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby
from pathlib import Path
from typing import Any

from honeyledger.domain.moments import Moment, format_day, house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.exchange.delimited import Row, Sheet, read_sheet
from honeyledger.exchange.imports import import_yards, known_to
from honeyledger.exchange.mapping import Setting, pallets_in
from honeyledger.exchange.season_columns import house_columns, logs, registers
from honeyledger.exchange.season_laboratory import LABORATORY
from honeyledger.exchange.season_recalls import RECALLS
from honeyledger.exchange.season_steps import STEPS, Names, Step
from honeyledger.exchange.season_works import WORKS
from honeyledger.ledger.canonical import digest_of
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House, Said
from honeyledger.services.store import Store, Unit

SAMPLE_NOW_MS = 1_790_368_800_000
"""25 September 2026, 15:40 by the sample house's clock: run faces on it."""

NOT_NEW = Sentence(
    "sample-into-used-house",
    "This house has entries of its own. Load the sample season into a new, empty house.",
)
BAD_ROW = Sentence("bad-sample-row", "{file}.csv, row {row}: {what}")

_ZONE = "America/Winnipeg"
_STATIONS = {"receipts": "dock", "pallets": "dock", "floor": "floor", "drums": "floor"}
_STATIONS |= {"bottling": "bottling", "readings": "bench", "rooms_log": "dock"}
_STATIONS |= {"supplies": "dock", "comb": "bottling", "blends": "bottling", "jars": "bottling"}
_TOGETHER = {"dispatch": "note", "blends": "blend"}  # files of which several rows are one entry
Progress = Callable[[int, int, str], None]


@dataclass(frozen=True, slots=True)
class SeasonResult:
    """What was loaded.

    Args:
        rows: rows of the logs and registers.
        codes: what the files call things, in lower case, to the code each was given last.
    """

    rows: int
    codes: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class _Task:
    """One thing to record: rows of one file, when it was typed, and how to make its facts."""

    file: str
    rows: tuple[Row, ...]
    at_ms: int
    make: Callable[[Names], Step]


def load_season(
    store: Store, folder: Path, progress: Progress = lambda done, of, what: None
) -> SeasonResult:
    """Load the sample season's files into a new ledger, a day at a time.

    A house of its own is opened on the store, whose clock is set to when each row was typed. A
    load that was broken off goes on where it stopped.

    Args:
        progress: rows done, rows in all, and the day being loaded.

    Raises:
        Refusal: the ledger has entries of another kind, or a file is not as it should be.
    """
    loading = _Loading(store, folder)
    loading.check_new()
    loading.registers()
    tasks = loading.tasks()
    done, of = 0, len(tasks)
    for day, group in groupby(tasks, key=lambda task: house_day(task.at_ms, _ZONE)):
        progress(done, of, format_day(day))
        today = list(group)
        with store.writing() as unit:
            for task in today:
                loading.record(unit, task)
        done += len(today)
    progress(done, of, format_day(house_day(SAMPLE_NOW_MS, _ZONE)))
    return SeasonResult(of, dict(loading.names.codes))


def _when(row: Row) -> Moment:
    """When a row's thing happened: a receipt calls it its arrival."""
    when = row["when"] or row["arrived"]
    assert isinstance(when, Moment)
    return when


def _as_read(step: Step, _names: Names) -> Step:
    return step


class _Within:
    """A store inside a unit of work: what a house records stays in it, so a day is one commit."""

    def __init__(self, unit: Unit) -> None:
        self._unit = unit

    @contextmanager
    def reading(self) -> Iterator[Unit]:
        yield self._unit

    @contextmanager
    def writing(self) -> Iterator[Unit]:
        yield self._unit


class _Loading:
    """The files, the clock they set, and the names they give."""

    def __init__(self, store: Store, folder: Path) -> None:
        self._store = store
        self._folder = folder
        self._setting = Setting(_ZONE, SAMPLE_NOW_MS)
        self._now_ms = SAMPLE_NOW_MS
        contents = [path.read_text("utf-8-sig") for path in sorted(folder.glob("*.csv"))]
        self._version = digest_of("\n".join(contents))[:12]
        self.names = Names()

    def _house(self, unit: Unit) -> House:
        # A unit within a unit needs no more of a store than reading and writing.
        within: Any = _Within(unit)
        return House(within, lambda: self._now_ms, lambda: "")

    def _command(self, file: str, row: int) -> str:
        return f"sample-{self._version}-{file}-{row}"

    def check_new(self) -> None:
        """Refuse a ledger that begins with anything but this season."""
        with self._store.reading() as view:
            if view.head().entry and not view.entry_of_command(self._command("house", 2)):
                raise Refusal(NOT_NEW, field="house")

    def registers(self) -> None:
        """Write the house's own record and its registers, each file at once."""
        sheet = self._sheet("house", house_columns(self._setting))
        since = sheet.rows[0]["since"]
        assert isinstance(since, Moment)
        record = {key: value for key, value in sheet.rows[0].values.items() if key != "since"}
        self._now_ms = since.at_ms
        with self._store.writing() as unit:
            house = self._house(unit)
            said = Said(station="office", command=self._command("house", 2), happened=since)
            house.record(Register("house", record), said)
            for file, (kind, columns) in registers(self._setting).items():
                self._now_ms += 60_000
                sheet = self._sheet(file, columns)
                if kind == "yard":
                    said = Said(self.names.code("office"), "office")
                    import_yards(house, self._folder / f"{file}.csv", said)
                    continue
                self._register(house, kind, sheet)

    def _register(self, house: House, kind: str, sheet: Sheet) -> None:
        facts = [Register(kind, dict(row.values)) for row in sheet.rows]
        said = Said(self.names.code("office"), "office", self._command(kind, 2))
        recorded = house.record_all(facts, said)
        if kind == "operator":
            for row, code in zip(sheet.rows, recorded.given, strict=True):
                self.names.give(row.text("name"), code)
                self.names.give(row.text("role"), code)

    def tasks(self) -> list[_Task]:
        """All rows of the logs in the order in which they were typed."""
        tasks: list[_Task] = []
        for file, columns in logs(self._setting).items():
            sheet = self._sheet(file, columns)
            found = self._receipts(file, sheet) if "receipts" in file else self._log(file, sheet)
            tasks += found
        return sorted(tasks, key=lambda task: task.at_ms)

    def _log(self, file: str, sheet: Sheet) -> list[_Task]:
        groups: dict[str, list[Row]] = {}
        for row in sheet.rows:
            number = row.text(_TOGETHER[file]) if file in _TOGETHER else ""
            groups.setdefault(number or f"row {row.number}", []).append(row)
        make = {**STEPS, **WORKS, **LABORATORY, **RECALLS}[file]
        return [self._task(file, rows, partial(make, tuple(rows))) for rows in groups.values()]

    def _receipts(self, file: str, sheet: Sheet) -> list[_Task]:
        with self._store.reading() as view:
            known = known_to(view)
        found = pallets_in(sheet, known)
        sheet.check()
        tasks = []
        for pallet in found:
            name = f"pallet {pallet.name}"
            pulls = tuple(f"{row.text('yard')} on {name}" for row in pallet.rows)
            step = Step(pallet.facts, gives=((name, "G"),), pulls=pulls)
            tasks.append(self._task(file, pallet.rows, partial(_as_read, step)))
        return tasks

    def _task(self, file: str, rows: Sequence[Row], make: Callable[[Names], Step]) -> _Task:
        typed = rows[0]["typed"] or _when(rows[0])
        assert isinstance(typed, Moment)
        return _Task(file, tuple(rows), typed.at_ms, make)

    def record(self, unit: Unit, task: _Task) -> None:
        """Record one task as it was typed."""
        self._now_ms = task.at_ms
        row = task.rows[0]
        try:
            step = task.make(self.names)
            said = replace(self._said(task.file, row), run=step.run)
            recorded = self._house(unit).record(step.facts, said)
        except Refusal as refusal:
            what = refusal.text
            raise Refusal(BAD_ROW, file=task.file, row=row.number, what=what) from refusal
        self.names.learn(step, recorded)

    def _said(self, file: str, row: Row) -> Said:
        """Who, when and where; with nobody named it was the person whose station it is."""
        station = _STATIONS.get(file, "office")
        return Said(
            operator=self.names.code(row.text("by") or station),
            station=station,
            command=self._command(file, row.number),
            happened=_when(row),
            unsure_ms=row["about_ms"] or 0,
        )

    def _sheet(self, file: str, columns: Any) -> Sheet:
        sheet = read_sheet(self._folder / f"{file}.csv", columns)
        sheet.check()
        return sheet
