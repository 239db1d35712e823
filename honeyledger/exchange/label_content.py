"""What markets want on a jar's label, read from files: one file, one market.

A file with a slip in it is refused whole, with where the slip is.
"""

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from honeyledger.domain.label_content import (
    CONDITIONS,
    FIGURES,
    ITEMS,
    LOOK,
    METRIC,
    NET_CONTENT,
    PANEL,
    TEXT,
    US_FIRST,
    ContentLine,
    HeightRule,
    Market,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.standards import Mark
from honeyledger.exchange.standards import BAD_RULE, NO_RULES_FILE, NOT_TOML

_OF_MARKET = frozenset({"names", "units", "lines", "heights"})
_OF_LINE = frozenset({"item", "mark", "source", "as_of", "when", "on_front", "shares", "text"})
_OF_HEIGHT = frozenset({"of", "by", "steps", "mark", "source", "as_of", "below"})
_MARKS = {mark.value: mark for mark in Mark if mark is not Mark.OWN}

Table = Mapping[str, object]


@cache
def shipped_markets(folder: Path) -> tuple[Market, ...]:
    """The markets of all files in a folder, by file name.

    Raises:
        Refusal: a file is not as it should be.
    """
    return tuple(read_market(file) for file in sorted(folder.glob("*.toml")))


def read_market(file: Path) -> Market:
    """The market of a file, named after it.

    Raises:
        Refusal: it is not there, or not as it should be.
    """
    try:
        table = tomllib.loads(file.read_text("utf-8-sig"))
    except OSError as error:
        raise Refusal(NO_RULES_FILE, field="rules", file=file.name) from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise Refusal(NOT_TOML, field="rules", file=file.name, why=str(error)) from error
    return _Reading(file.name).market(file.stem, table)


class _Reading:
    """A file on its way to a market."""

    def __init__(self, file: str) -> None:
        self._file = file
        self._where = "its head"

    def market(self, key: str, table: Table) -> Market:
        self._known(table, _OF_MARKET)
        names = table.get("names")
        if not isinstance(names, list) or not names or not all(isinstance(n, str) for n in names):
            raise self._bad("names", "a list of what the market is called")
        units = self._one_of(table, "units", (METRIC, US_FIRST))
        lines = tuple(self._line(row, at) for at, row in self._rows(table, "lines"))
        heights = tuple(self._height(row, at) for at, row in self._rows(table, "heights"))
        return Market(key, tuple(names), units, lines, heights)

    def _rows(self, table: Table, name: str) -> list[tuple[int, Table]]:
        rows = table.get(name, [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            raise self._bad(name, "a list of tables")
        return list(enumerate(rows, start=1))

    def _line(self, row: Table, at: int) -> ContentLine:
        self._where = f"line {at}"
        self._known(row, _OF_LINE)
        item = self._one_of(row, "item", (*ITEMS, LOOK))
        text = self._text(row, "text", needed=item == LOOK)
        mark, source, as_of = self._known_from(row)
        on_front, shares = (self._yes(row, name) for name in ("on_front", "shares"))
        when = self._one_of({"when": "", **row}, "when", CONDITIONS)
        return ContentLine(item, mark, source, as_of, when, on_front, shares, text)

    def _height(self, row: Table, at: int) -> HeightRule:
        self._where = f"height {at}"
        self._known(row, _OF_HEIGHT)
        of = self._one_of(row, "of", (TEXT, FIGURES))
        by = self._one_of(row, "by", (PANEL, NET_CONTENT))
        mark, source, as_of = self._known_from(row)
        return HeightRule(of, by, self._steps(row), mark, source, as_of, self._yes(row, "below"))

    def _steps(self, row: Table) -> tuple[tuple[int | None, float], ...]:
        """Each step is [up to, mm]; the last one is [mm], for all above."""
        steps = row.get("steps")
        found: list[tuple[int | None, float]] = []
        for step in steps if isinstance(steps, list) else ():
            if not isinstance(step, list) or not all(type(one) in (int, float) for one in step):
                break
            found.append((int(step[0]), float(step[1])) if len(step) == 2 else (None, *step))
        ends = [upto for upto, _ in found[:-1] if upto is not None]
        if not found or found[-1][0] is not None or len(ends) != len(found) - 1:
            raise self._bad("steps", "a list such as [[50, 2.0], [200, 3.0], [4.0]]")
        if ends != sorted(ends):
            raise self._bad("steps", "in rising order")
        return tuple(found)

    def _known_from(self, row: Table) -> tuple[Mark, str, str]:
        mark = _MARKS[self._one_of(row, "mark", tuple(_MARKS))]
        return mark, self._text(row, "source"), self._text(row, "as_of")

    def _known(self, row: Table, known: frozenset[str]) -> None:
        for name in row:
            if name not in known:
                raise self._bad(name, f"one of {', '.join(sorted(known))}")

    def _one_of(self, row: Table, name: str, words: tuple[str, ...]) -> str:
        value = row.get(name)
        if not isinstance(value, str) or value not in words:
            raise self._bad(name, f"one of {', '.join(word for word in words if word)}")
        return value

    def _text(self, row: Table, name: str, *, needed: bool = True) -> str:
        value = row.get(name, "")
        if not isinstance(value, str) or (needed and not value.strip()):
            raise self._bad(name, "a text in quotation marks")
        return value

    def _yes(self, row: Table, name: str) -> bool:
        value = row.get(name, False)
        if not isinstance(value, bool):
            raise self._bad(name, "true or false")
        return value

    def _bad(self, name: str, wanted: str) -> Refusal:
        shown = {"file": self._file, "where": self._where, "name": name, "wanted": wanted}
        return Refusal(BAD_RULE, field="rules", **shown)
