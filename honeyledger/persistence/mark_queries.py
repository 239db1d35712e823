"""Questions about marks (dated facts about codes) and about codes given."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from operator import attrgetter
from typing import Any

from sqlalchemy import literal_column, select, union_all

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.state import Mark
from honeyledger.persistence.place_queries import PlaceQueries
from honeyledger.persistence.rows import code_parts, value_of
from honeyledger.persistence.short import lie_between, short, short_name, written, written_name
from honeyledger.persistence.short_values import written_value
from honeyledger.persistence.statements import Row, Statement, as_list, the, words_given
from honeyledger.persistence.tables import (
    CODE_GIVEN,
    ENTRY,
    IN_FACTS,
    IS_ONE_NAME,
    LAST_NUMBER,
    LOT,
    MARK,
    ONLY_OF_SUBJECT,
    RECORD,
)

_FACTS = (
    select(ENTRY.c.facts)
    .where(ENTRY.c.id == MARK.c.entry, MARK.c.value == literal_column(f"'{IN_FACTS}'"))
    .correlate(MARK)
    .scalar_subquery()
)
_MARK = (MARK.c.subject, MARK.c.name, MARK.c.value, MARK.c.at_ms, MARK.c.entry, _FACTS)
_LATER = MARK.alias("later")
_IS_LATEST = ~(
    select(_LATER.c.entry)
    .where(_LATER.c.subject == MARK.c.subject, _LATER.c.name == MARK.c.name)
    .where(_LATER.c.entry > MARK.c.entry)
    .exists()
)

_ONE_MARK = Statement(
    select(*_MARK)
    .where(MARK.c.subject == the("subject"), MARK.c.name == the("name"))
    .order_by(MARK.c.entry.desc())
    .limit(1),
    "subject",
    "name",
)
_MARKS = Statement(select(*_MARK).where(MARK.c.subject == the("subject"), _IS_LATEST), "subject")
_MARKS_OF = Statement(
    lambda engine: select(*_MARK).where(MARK.c.subject.in_(words_given(engine)), _IS_LATEST),
    "words",
)
_IS_NAMED = (MARK.c.name == the("name")) & literal_column(IS_ONE_NAME.replace("name", "mark.name"))
_MARKED = Statement(select(*_MARK).where(_IS_NAMED, _IS_LATEST), "name")
_MARKED_UNDER = Statement(
    select(*_MARK)
    .where(_IS_NAMED, _IS_LATEST)
    .where(MARK.c.subject >= the("first"), MARK.c.subject < the("after")),
    "name",
    "first",
    "after",
)
_MADE_BETWEEN = Statement(
    select(*_MARK)
    .where(_IS_NAMED, _IS_LATEST)
    .where(MARK.c.subject >= the("first"), MARK.c.subject < the("after"))
    .where(MARK.c.at_ms >= the("since_ms"), MARK.c.at_ms < the("before_ms")),
    "name",
    "first",
    "after",
    "since_ms",
    "before_ms",
)
_MARKED_ON = Statement(
    lambda engine: (
        select(*_MARK)
        .where(MARK.c.name == the("name"), _IS_LATEST)
        .where(MARK.c.subject.in_(words_given(engine)))
    ),
    "name",
    "words",
)
_OTHER = MARK.alias("other")
_BEGUN = Statement(
    select(*_MARK)
    .where(_IS_NAMED, _IS_LATEST)
    .where(MARK.c.subject >= the("first"), MARK.c.subject < the("after"))
    .where(
        ~select(_OTHER.c.entry)
        .where(_OTHER.c.subject == MARK.c.subject, _OTHER.c.name == the("without"))
        .exists()
    ),
    "name",
    "first",
    "after",
    "without",
)
_RECORDS_OF = Statement(
    lambda engine: (
        select(MARK.c.subject, MARK.c.value)
        .where(MARK.c.name == literal_column("'record'"))
        .where(MARK.c.subject.in_(words_given(engine)))
        .order_by(MARK.c.subject, MARK.c.entry)
    ),
    "words",
)
_IS_GIVEN = Statement(
    union_all(
        select(CODE_GIVEN.c.entry).where(CODE_GIVEN.c.code == the("stored")),
        select(LOT.c.made_by).where(LOT.c.code == the("code")),
    ),
    "stored",
    "code",
)
_LAST_NUMBER = Statement(
    select(LAST_NUMBER.c.number).where(
        LAST_NUMBER.c.letter == the("letter"), LAST_NUMBER.c.season == the("season")
    ),
    "letter",
    "season",
)


_MOST_KEPT = 10_000


@dataclass(slots=True)
class Known:
    """What was read of registers, of marks by name, and of the numbers codes have got to.

    It stays true from entry to entry: what an entry says of it is put in or let go.
    """

    records: dict[tuple[str, str], Mark | None] = field(default_factory=dict)
    marked: dict[tuple[str, str], Sequence[Mark]] = field(default_factory=dict)
    begun: dict[tuple[str, str, str], Sequence[Mark]] = field(default_factory=dict)
    numbers: dict[tuple[str, int], int] = field(default_factory=dict)

    def follow(self, entry: Entry) -> None:
        """After an append: what is read again, if asked for."""
        if entry.reverses:  # it may bring back any mark there was
            self.records.clear()
            self.marked.clear()
            self.begun.clear()
        for subject, name, _ in rows_of(entry, "marks"):
            self.records.pop((str(subject), str(name)), None)
            for key in [key for key in self.marked if _is_in(str(subject), str(name), key)]:
                del self.marked[key]
            self._follow_begun(str(subject), str(name))
        for (code,) in rows_of(entry, "codes"):
            letter, season, number = code_parts(str(code))
            if (letter, season) in self.numbers:
                self.numbers[letter, season] = max(self.numbers[letter, season], number)

    def _follow_begun(self, subject: str, name: str) -> None:
        for key in [key for key in self.begun if name in key[:2]]:
            if name == key[0]:
                del self.begun[key]
            else:
                self.begun[key] = [mark for mark in self.begun[key] if mark.subject != subject]


def _is_in(subject: str, name: str, key: tuple[str, str]) -> bool:
    """Whether a mark is among those of a name under the beginning of a subject."""
    return name == key[0] and subject.startswith(key[1])


class Kept:
    """What units of work know, good while the chain ends where the last one left it.

    A station names the same yards and vessels all day; to a server each question is a journey.
    """

    def __init__(self) -> None:
        self._kept = ("", Known())

    def lend(self, digest: str) -> Known:
        """To a unit that begins at this end of the chain; one that fails gives nothing back."""
        (kept_at, known), self._kept = self._kept, ("", Known())
        return known if kept_at == digest and len(known.records) < _MOST_KEPT else Known()

    def take_back(self, digest: str, known: Known) -> None:
        """From a unit that has been committed, and where the chain ends now."""
        self._kept = (digest, known)


class MarkQueries(PlaceQueries):
    """The latest fact of each name about a subject, and which codes are taken.

    A verb asks for the same record again and again, so answers are kept until something is
    appended.
    """

    _marks_read: dict[tuple[str, str], Mark | None]
    _marks_on: dict[str, dict[str, Mark]]
    _known: Known

    def mark(self, subject: str, name: str) -> Mark | None:
        """The latest mark of this name on a subject that counts."""
        if subject in self._marks_on:
            return self._marks_on[subject].get(name)
        known = self._known.records if name == RECORD else self._marks_read
        key = (subject, name)
        if key not in known:
            row = self._one(_ONE_MARK, short(subject), short_name(name))
            known[key] = _mark_of(row) if row else None
        return known[key]

    def marks(self, subject: str) -> Sequence[Mark]:
        """The latest mark of each name on a subject, by name."""
        if subject not in self._marks_on:
            marks = _marks_of(self._all(_MARKS, short(subject)))
            self._marks_on[subject] = {mark.name: mark for mark in marks}
        return list(self._marks_on[subject].values())

    def read_marks(self, subjects: Collection[str]) -> None:
        """Read the marks of many subjects at once, for whoever asks for each of them next."""
        missing = sorted({subject for subject in subjects if subject not in self._marks_on})
        if missing:
            self._marks_on.update((subject, {}) for subject in missing)
            for mark in _marks_of(self._all(_MARKS_OF, as_list(list(map(short, missing))))):
                self._marks_on[mark.subject][mark.name] = mark

    def marked(self, name: str, under: str = "") -> Sequence[Mark]:
        """The latest mark of this name on every subject that begins with `under`, by subject."""
        key = (name, under)
        if "/" in name or name in ONLY_OF_SUBJECT:
            raise BrokenRule(f"marks named {name} are asked for by their subject")
        marked = self._known.marked
        if key not in marked:
            if under:
                marked[key] = self._marked_under(under, _MARKED_UNDER, name)
            else:
                marked[key] = _marks_of(self._all(_MARKED, name))
        return marked[key]

    def marked_on(self, name: str, subjects: Collection[str]) -> Mapping[str, Mark]:
        """The latest mark of this name on each of these subjects that has one, by subject.

        Of what stands in the house, say: by its name alone a mark has many years behind it.
        """
        if not subjects:
            return {}
        if name == RECORD:
            return self._records_on(subjects)
        stored = sorted(map(short, subjects))
        marks = map(_mark_of, self._all(_MARKED_ON, short_name(name), as_list(stored)))
        return {mark.subject: mark for mark in marks}

    def _records_on(self, subjects: Collection[str]) -> dict[str, Mark]:
        """Records, kept for whoever asks for one of them next."""
        known = self._known.records
        missing = sorted({one for one in subjects if (one, RECORD) not in known})
        if missing:
            stored = as_list(list(map(short, missing)))
            rows = self._all(_MARKED_ON, short_name(RECORD), stored)
            # Only now: what could not be asked for is not known to be on no record.
            known.update(((subject, RECORD), None) for subject in missing)
            known.update(((mark.subject, RECORD), mark) for mark in map(_mark_of, rows))
        found = ((subject, known[subject, RECORD]) for subject in subjects)
        return {subject: mark for subject, mark in found if mark is not None}

    def marked_between(
        self, name: str, under: str, since_ms: int, before_ms: int
    ) -> Sequence[Mark]:
        """As `marked`, of the latest marks those that were made in this time."""
        return self._marked_under(under, _MADE_BETWEEN, name, since_ms, before_ms)

    def marked_without(self, name: str, without: str, under: str) -> Sequence[Mark]:
        """As `marked`, of the subjects that have no mark of the other name."""
        begun, key = self._known.begun, (name, without, under)
        if key not in begun:
            begun[key] = self._marked_under(under, _BEGUN, name, short_name(without))
        return begun[key]

    def _marked_under(
        self, under: str, statement: Statement, name: str, *more: str | int
    ) -> list[Mark]:
        asked = [(statement, (name, *span, *more)) for span in lie_between(under)]
        rows = [row for answer in self._each(*asked) for row in answer]
        return [mark for mark in _marks_of(rows) if mark.subject.startswith(under)]

    def names_of(self, subjects: Collection[str]) -> Mapping[str, str]:
        """Names in the records of many registers; those without one are left out."""
        if not subjects:
            return {}
        known = self._remembered()
        names = known.answers(known.names, subjects, self._read_names)
        return {subject: name for subject, name in names.items() if name is not None}

    def _read_names(self, subjects: Collection[str]) -> dict[str, str | None]:
        latest: dict[str, str] = dict(self._all(_RECORDS_OF, as_list(list(map(short, subjects)))))
        return {
            subject: _name_in(latest[stored]) if (stored := short(subject)) in latest else None
            for subject in subjects
        }

    def is_given(self, code: str) -> bool:
        """Whether a code in normal form was ever given, to a lot or to anything else."""
        return self._one(_IS_GIVEN, short(code), code) is not None

    def last_number(self, letter: str, season: int) -> int:
        """The highest number given to a code of this letter and season (two digits), or 0."""
        numbers = self._known.numbers
        if (letter, season) not in numbers:
            row = self._one(_LAST_NUMBER, letter, season)
            numbers[letter, season] = int(row[0]) if row else 0
        return numbers[letter, season]


_BY_SUBJECT = attrgetter("subject", "name")


def _marks_of(rows: Iterable[Row]) -> list[Mark]:
    """Marks from their rows, by subject and name."""
    return sorted(map(_mark_of, rows), key=_BY_SUBJECT)


def _mark_of(row: Row) -> Mark:
    stored, name_stored, value, at_ms, entry, facts = row
    subject, name = written(stored), written_name(name_stored)
    if value == IN_FACTS:
        told = _value_in(facts, subject, name)
    else:
        told = value_of(written_value(value, at_ms))
    return Mark(subject, name, told, at_ms, entry)


def _value_in(facts: str, subject: str, name: str) -> Any:
    """A mark's value as its entry says it; of two of one name the later counts."""
    rows = value_of(facts)["effects"]["marks"]
    return next(row[2] for row in reversed(rows) if row[:2] == [subject, name])


@lru_cache(maxsize=16_384)
def _name_in(record: str) -> str | None:
    """The name in a record as stored."""
    value = value_of(record)
    return str(value["name"]) if isinstance(value, dict) and "name" in value else None
