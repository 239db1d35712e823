"""Reads a table as a spreadsheet writes it, and says of every bad cell what to do about it.

UTF-8 with or without its mark, commas, semicolons or tabs, quoted cells, any line ends. The first
row names the columns; a unit may stand behind a name, as in "Gross kg". What the columns mean is
for `mapping`. Nothing of a file is used unless all of it can be read.
"""

import csv
import io
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence

SHOWN = 20
"""Problems shown of a file; the rest are only counted."""

NO_FILE = Sentence("no-file", "There is no file {file}. Check its name and its folder.")
CANNOT_READ = Sentence(
    "cannot-read", "{file} cannot be read ({what}). Close it elsewhere, or copy it, and try again."
)
NOT_UTF8 = Sentence(
    "not-utf8", "{file} is not text in UTF-8. Save it as “CSV UTF-8” in the spreadsheet."
)
NOT_A_TABLE = Sentence(
    "not-a-table", "{file} cannot be read as a table: {what}. Save it again as CSV."
)
NO_ROWS = Sentence("no-rows", "{file} has no rows. Its first row names the columns: {known}.")
NO_COLUMN = Sentence(
    "no-column", "{file} has no column {missing}: name {it} in the first row. Also known: {known}."
)
UNKNOWN_COLUMN = Sentence(
    "unknown-column",
    "{file} has a column “{column}” that means nothing here. Name it {near}, or take it out.",
)
WHICH_COLUMN = Sentence(
    "which-column", "{file} has a column “{column}”: is it {near}? Name it so, or take it out."
)
COLUMN_TWICE = Sentence(
    "column-twice", "{file} has two columns for {column}: “{first}” and “{second}”. Keep one."
)
TOO_MANY_CELLS = Sentence(
    "too-many-cells",
    "{file}, row {row}: more cells than columns. Put text with a separator in it in quotes.",
)
BAD_CELL = Sentence("bad-cell", "{file}, row {row}, {column}: {what}")
CELL_EMPTY = Sentence("cell-empty", "nothing stands here. Fill it in, such as {example}.")
BAD_FILE = Sentence(
    "bad-file", "{file} has {count} things to put right, so nothing of it was taken in.\n{shown}"
)

_SEPARATORS = (";", "\t", ",")
# Units that may stand behind a column's name, and how the readers know them.
_UNITS = {
    "kg": "kg",
    "lb": "lb",
    "lbs": "lb",
    "g": "g",
    "%": "%",
    "mm": "mm",
    "mm pfund": "mm",
    "min": "min",
    "°c": "C",
    "°f": "F",
}
_UNIT = "|".join(map(re.escape, _UNITS))
_HEAD = re.compile(
    rf"(?P<name>.*?)(?:[\s(\[,]+(?P<unit>{_UNIT})[)\]]?|\s*(?P<rest>%))?", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Column:
    """One fact that a row may give.

    Args:
        name: what the program calls it.
        heads: what may stand above it, in lower case and without a unit; the first is shown.
        read: turns a cell's text, and the unit in the head or "", into a value, or refuses it.
        needed: every row has to have it.
        example: what is typed here, for instance.
        perhaps: heads that may mean this column, and another as well: which, is asked.
    """

    name: str
    heads: tuple[str, ...]
    read: Callable[[str, str], Any]
    needed: bool = False
    example: str = "one"
    perhaps: tuple[str, ...] = ()


def _as_it_stands(text: str, _unit: str) -> str:
    return text


_NO_COLUMN_OF_OURS = Column("", (), _as_it_stands)
ALIKE = 0.75  # how much a head has to look like one that is known, to be offered


@dataclass(frozen=True, slots=True)
class Row:
    """A row as read; its number is the one the spreadsheet shows."""

    number: int
    values: Mapping[str, Any]

    def __getitem__(self, name: str) -> Any:
        """Give a value, or None where the cell is empty or the column is not there."""
        return self.values.get(name)

    def text(self, name: str) -> str:
        """Give a text, "" where there is none."""
        return str(self.values.get(name) or "")


@dataclass(slots=True)
class Sheet:
    """A file's rows, the heads as written above them, and what is wrong with it so far."""

    file: str
    heads: dict[str, str]
    rows: list[Row] = field(default_factory=list)
    problems: list[Refusal] = field(default_factory=list)

    def problem(self, row: int, name: str, text: str, refusal: Refusal) -> None:
        """Note what is wrong with a cell, and go on reading."""
        self.problems.append(
            Refusal(
                BAD_CELL,
                field=name,
                offers=refusal.offers,
                file=self.file,
                row=row,
                column=self.heads.get(name, name),
                value=text,
                what=Phrase(refusal.sentence.text, refusal.facts),
            )
        )

    def check(self) -> None:
        """Refuse the file if anything is wrong with it.

        Raises:
            Refusal: with every problem in its facts under "problems", the first ones in its text.
        """
        if not self.problems:
            return
        if len(self.problems) == 1:
            raise self.problems[0]
        self.problems.sort(key=lambda problem: int(str(problem.facts.get("row", 0))))
        more = len(self.problems) - SHOWN
        lines = [problem.text for problem in self.problems[:SHOWN]]
        if more > 0:
            lines.append(f"and {more} more")
        raise Refusal(
            BAD_FILE,
            field="file",
            file=self.file,
            count=len(self.problems),
            shown="\n".join(lines),
            problems=tuple(self.problems),
        )


def read_sheet(path: Path, columns: Sequence[Column]) -> Sheet:
    """Read all rows of a file; columns and cells that cannot be read are noted in the sheet.

    Raises:
        Refusal: the file cannot be read at all.
    """
    file = path.name
    lines = _lines(_text(path), file)
    if not lines:
        raise Refusal(NO_ROWS, field="file", file=file, known=_known(columns))
    sheet = Sheet(file, {})
    by_place = _columns(lines[0][1], columns, sheet)
    for number, cells in lines[1:]:
        _read_row(number, cells, by_place, sheet)
    return sheet


def _text(path: Path) -> str:
    try:
        data = path.read_bytes()
    except FileNotFoundError as error:
        raise Refusal(NO_FILE, field="file", file=str(path)) from error
    except OSError as error:
        what = error.strerror or type(error).__name__
        raise Refusal(CANNOT_READ, field="file", file=str(path), what=what) from error
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refusal(NOT_UTF8, field="file", file=path.name) from error
    if "\0" in text:
        raise Refusal(NOT_UTF8, field="file", file=path.name)
    return text


def _lines(text: str, file: str) -> list[tuple[int, list[str]]]:
    """The filled rows, numbered as a spreadsheet does, which hides a first line "sep=;"."""
    first, _, rest = text.partition("\n")
    told = re.fullmatch(r"sep=(.)", first.strip("\r"))
    separator = told[1] if told else _separator(first)
    table = csv.reader(
        io.StringIO(rest if told else text, newline=""), delimiter=separator, strict=True
    )
    try:
        rows = [[cell.strip() for cell in cells] for cells in table]
    except csv.Error as error:
        raise Refusal(NOT_A_TABLE, field="file", file=file, what=error) from error
    return [(at, cells) for at, cells in enumerate(rows, 1) if any(cells)]


def _separator(head: str) -> str:
    """The separator the first row uses most, outside quotes."""
    bare = re.sub('"[^"]*"', "", head)
    return max(_SEPARATORS, key=bare.count) if any(map(bare.count, _SEPARATORS)) else ","


def _known(columns: Sequence[Column]) -> str:
    return ", ".join(column.heads[0] for column in columns)


def split_head(head: str) -> tuple[str, str]:
    """A head's name in plain lower case, and the unit behind it: "Gross (kg)" is gross, kg."""
    plain = " ".join(head.replace("_", " ").replace("-", " ").split())
    found = _HEAD.fullmatch(plain)
    assert found is not None
    unit = _UNITS.get((found["unit"] or found["rest"] or "").lower(), "")
    return found["name"].rstrip(" :").casefold(), unit


def _columns(
    heads: Sequence[str], columns: Sequence[Column], sheet: Sheet
) -> list[tuple[Column, str] | None]:
    """Which column stands at each place, with the unit in its head; what is not ours is noted."""
    by_head = {head: column for column in columns for head in column.heads}
    by_place: list[tuple[Column, str] | None] = []
    for head in heads:
        name, unit = split_head(head)
        column = by_head.get(name) or by_head.get(f"{name} {unit}".strip())
        if not head:
            by_place.append(None)
            continue
        first = sheet.heads.get(column.name) if column else None
        if column is None:
            sheet.problems.append(_not_ours(head, name, columns, sheet.file))
        elif first:
            sheet.problems.append(
                Refusal(
                    COLUMN_TWICE,
                    field="file",
                    file=sheet.file,
                    column=column.heads[0],
                    first=first,
                    second=head,
                )
            )
            column = None
        else:
            sheet.heads[column.name] = head
        by_place.append((column or _NO_COLUMN_OF_OURS, unit))
    _check_needed(columns, sheet)
    return by_place


def _check_needed(columns: Sequence[Column], sheet: Sheet) -> None:
    lacks = [column for column in columns if column.needed and column.name not in sheet.heads]
    if lacks:
        missing = " and no column ".join(f"“{column.heads[0]}”" for column in lacks)
        it = "it" if len(lacks) == 1 else "them"
        others = _known([column for column in columns if column not in lacks])
        sheet.problems.append(
            Refusal(NO_COLUMN, field="file", file=sheet.file, missing=missing, it=it, known=others)
        )


def _not_ours(head: str, name: str, columns: Sequence[Column], file: str) -> Refusal:
    """The refusal of a column that means nothing, or that may mean one of several."""
    meant = [column.heads[0] for column in columns if name in column.perhaps]
    known = [one for column in columns for one in column.heads]
    close = meant or get_close_matches(name, known, n=2, cutoff=ALIKE)
    near = " or ".join(f"“{one}”" for one in close) or f"one of {', '.join(known)}"
    sentence = WHICH_COLUMN if meant else UNKNOWN_COLUMN
    return Refusal(sentence, field="file", file=file, column=head, near=near)


def _read_row(
    number: int,
    cells: Sequence[str],
    by_place: Sequence[tuple[Column, str] | None],
    sheet: Sheet,
) -> None:
    values: dict[str, Any] = {}
    for at, text in enumerate(cells):
        place = by_place[at] if at < len(by_place) else None
        if place is None:
            if text:
                sheet.problems.append(Refusal(TOO_MANY_CELLS, file=sheet.file, row=number))
            continue
        column, unit = place
        if text:
            try:
                values[column.name] = column.read(text, unit)
            except Refusal as refusal:
                sheet.problem(number, column.name, text, refusal)
                values[column.name] = None
    for place in by_place:
        if place and place[0].needed and place[0].name not in values:
            column = place[0]
            sheet.problem(number, column.name, "", Refusal(CELL_EMPTY, example=column.example))
    sheet.rows.append(Row(number, values))
