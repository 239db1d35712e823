"""What the bench found: rows with their ratios, as Markdown and as JSON."""

import json
import platform
import sqlite3
from collections.abc import Sequence
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path

SMALLEST = 10_000
"""Entries below which nothing is bounded: what a process costs anyway would be all there is."""


@dataclass(frozen=True, slots=True)
class Against:
    """One comparison of a row.

    Args:
        what: "floor", "networkx", "SQLite", "one season" or "words alone".
        seconds: what that took, in the same run.
        ratio: how many times as long the program took; where `faster`, how many times as long
            the other took.
        bound: on the ratio, from above, or where `faster` from below; None for none.
    """

    what: str
    seconds: float
    ratio: float
    bound: float | None = None
    faster: bool = False

    @property
    def is_met(self) -> bool:
        """Whether the bound holds; so it does where there is none."""
        if self.bound is None:
            return True
        return self.ratio >= self.bound if self.faster else self.ratio <= self.bound

    def told(self) -> str:
        """As a cell of the table."""
        name = "as fast" if self.faster else "as long"
        text = f"{_time(self.seconds)}; {self.ratio:.2f} x {name}"
        if self.bound is None:
            return text
        sign = "≥" if self.faster else "≤"
        return f"{text} ({sign} {self.bound:g}{'' if self.is_met else ', NOT MET'})"


@dataclass(frozen=True, slots=True)
class Row:
    """One thing that was timed.

    Args:
        seconds: the median for the program.
        most_seconds: a bound on that; 0 for none.
        entries_a_second: for the audit, or of what is `counted`; 0 elsewhere.
        least: a bound on entries a second; 0 for none.
        counted: what a second has so many of.
    """

    what: str
    engine: str
    size: str
    seconds: float
    against: tuple[Against, ...] = ()
    most_seconds: float = 0.0
    entries_a_second: float = 0.0
    least: float = 0.0
    counted: str = "entries"

    @property
    def is_met(self) -> bool:
        """Whether every bound of the row holds."""
        return self._is_own_met and all(one.is_met for one in self.against)

    @property
    def _is_own_met(self) -> bool:
        in_time = not self.most_seconds or self.seconds <= self.most_seconds
        return in_time and self.entries_a_second >= self.least

    def told(self) -> str:
        """The program's own time, with its bound."""
        text, bound = _time(self.seconds), ""
        if self.entries_a_second:
            text = f"{self.entries_a_second:,.0f} {self.counted}/s"
        if self.least:
            bound = f"≥ {self.least:,.0f}"
        elif self.most_seconds:
            bound = f"≤ {_time(self.most_seconds)}"
        return f"{text} ({bound}{'' if self._is_own_met else ', NOT MET'})" if bound else text

    def unbounded(self) -> "Row":
        """The row without its bounds."""
        against = tuple(replace(one, bound=None) for one in self.against)
        return replace(self, against=against, most_seconds=0.0, least=0.0)


@dataclass(slots=True)
class Report:
    """All rows of one run, on one machine, over one set of seasons."""

    scale: str
    entries: int
    lots: int
    origins: int
    size: str
    rows: list[Row] = field(default_factory=list)

    def add(self, rows: Sequence[Row]) -> None:
        """Take rows in; those of a small set without bounds."""
        small = self.entries < SMALLEST
        self.rows += [row.unbounded() for row in rows] if small else rows

    def as_json(self) -> str:
        """For comparing two runs."""
        rows = [{**asdict(row), "met": row.is_met} for row in self.rows]
        about = asdict(self) | {"machine": machine(), "rows": rows}
        return json.dumps(about, indent=1, ensure_ascii=False) + "\n"

    def as_markdown(self) -> str:
        """For reading; one table."""
        sorts = ("floor", "networkx", "SQLite", "one season")
        lines = [
            f"{self.scale}: {self.entries:,} entries, {self.lots:,} lots, {self.origins:,} origin "
            f"rows, {self.size}. {machine()}. Medians; bounds in brackets.",
            "",
            f"| what | engine | size | program | {' | '.join(f'and {sort}' for sort in sorts)} |",
            "|" + " --- |" * (4 + len(sorts)),
        ]
        for row in self.rows:
            told = {one.what: one.told() for one in row.against}
            cells = [row.what, row.engine, row.size, row.told(), *(told.get(s, "") for s in sorts)]
            lines.append(f"| {' | '.join(cells)} |")
        return "\n".join(lines) + "\n"


def write(report: Report, folder: Path) -> Sequence[Path]:
    """Both forms, as bench.md and bench.json."""
    folder.mkdir(parents=True, exist_ok=True)
    files = (folder / "bench.md", folder / "bench.json")
    for file, text in zip(files, (report.as_markdown(), report.as_json()), strict=True):
        file.write_text(text, "utf-8")
    return files


def machine() -> str:
    """What it ran on, as far as ratios may hang on it."""
    system = f"{platform.system()} {platform.machine()}"
    return f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}, {system}"


def _time(seconds: float) -> str:
    return f"{seconds:.2f} s" if seconds >= 1 else f"{seconds * 1000:.2f} ms"
