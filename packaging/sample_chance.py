"""Repeatable chance, the house's calendar, and the tables the sample season is written into.

Only `random()` is taken from Python's generator, since its row is the same in every version.
"""

import csv
import io
import random
from collections.abc import Sequence
from datetime import datetime, timedelta
from math import cos, log, pi, sqrt
from pathlib import Path

YEAR = 2026


class Chance:
    """A seeded row of chance."""

    def __init__(self, seed: int) -> None:
        self._random = random.Random(seed)

    def between(self, low: float, high: float) -> float:
        """Give a number between two, each as likely."""
        return low + (high - low) * self._random.random()

    def whole(self, low: int, high: int) -> int:
        """Give a whole number from low to high, both included."""
        return low + int((high - low + 1) * self._random.random())

    def normal(self, mean: float, spread: float, low: float, high: float) -> float:
        """Give a number of a bell curve, kept within bounds."""
        first, second = 1 - self._random.random(), self._random.random()
        value = mean + spread * sqrt(-2 * log(first)) * cos(2 * pi * second)
        return min(high, max(low, value))

    def one_of(self, choices: Sequence[str]) -> str:
        """Give one of several."""
        return choices[self.whole(0, len(choices) - 1)]


def at(month: int, day: int, hour: int = 0, minute: int = 0) -> datetime:
    """Give a time of the season by the house's clock."""
    return datetime(YEAR, month, day, hour, minute)  # noqa: DTZ001  The house's zone is in house.csv.


class Tables:
    """The files in the making: rows of texts under each file's heads, no two at one minute."""

    def __init__(self, heads: dict[str, list[str]]) -> None:
        self._heads = heads
        self._rows: dict[str, list[list[str]]] = {file: [] for file in heads}
        self._taken: set[datetime] = set()

    def free(self, wanted: datetime) -> datetime:
        """Give the first minute from the one wanted at which nothing else was written down."""
        wanted = wanted.replace(second=0, microsecond=0)
        while wanted in self._taken:
            wanted += timedelta(minutes=1)
        self._taken.add(wanted)
        return wanted

    def add(self, file: str, **cells: object) -> None:
        """Write a row; cells are named as their heads, without unit, with underscores."""
        heads = [_plain(head) for head in self._heads[file]]
        if strange := set(cells) - set(heads):
            raise KeyError(f"{file}.csv has no column for {strange}")
        self._rows[file].append([_text(head, cells.get(head)) for head in heads])

    def write(self, folder: Path) -> None:
        """Write all files."""
        for file, heads in self._heads.items():
            out = io.StringIO()
            table = csv.writer(out, lineterminator="\n")
            table.writerow(heads)
            table.writerows(self._rows[file])
            (folder / f"{file}.csv").write_text(out.getvalue(), encoding="utf-8", newline="\n")

    def complete(self, file: str, note: str, **cells: str) -> None:
        """Fill cells, named by their heads, in the first row of a dispatch note."""
        heads = self._heads[file]
        row = next(row for row in self._rows[file] if row[heads.index("Note")] == note)
        for head, text in cells.items():
            row[heads.index(head)] = text

    def rows(self, file: str) -> list[dict[str, str]]:
        """Give the rows written so far, cells under their heads."""
        return [dict(zip(self._heads[file], row, strict=True)) for row in self._rows[file]]

    def tares(self) -> dict[str, int]:
        """Give the tares of the containers written so far, grams."""
        return {row[0]: round(float(row[2]) * 1000) for row in self._rows["containers"]}

    def sort(self, file: str, head: str) -> None:
        """Put a log's rows in order of time."""
        place = self._heads[file].index(head)
        self._rows[file].sort(key=lambda row: row[place])


def _plain(head: str) -> str:
    for unit in (" kg", " g", " %", " mm", " min"):
        head = head.removesuffix(unit)
    return head.lower().replace(" ", "_")


def _text(head: str, value: object) -> str:
    if value is None or value is False:
        return ""
    if value is True:
        return "yes"
    if isinstance(value, datetime):
        midnight = head in ("pulled", "day") or head.endswith("_day")
        return f"{value:%Y-%m-%d}" if midnight else f"{value:%Y-%m-%d %H:%M}"
    return str(value)


def kg(grams: int) -> str:
    """Write grams as a house does: kilograms with no more decimals than there are."""
    whole, rest = divmod(round(grams / 10), 100)
    return f"{whole}.{rest:02}".rstrip("0").rstrip(".")


def exact_kg(grams: int) -> str:
    """Write grams as kilograms to the gram: a net content is declared, not weighed."""
    return f"{grams // 1000}.{grams % 1000:03}".rstrip("0").rstrip(".")


def percent(hundredths: float) -> str:
    """Write hundredths of a percent as read on a refractometer, to a tenth."""
    return f"{hundredths / 100:.1f}"


def step(value: float, size: int) -> int:
    """Round to what a scale shows."""
    return round(value / size) * size
