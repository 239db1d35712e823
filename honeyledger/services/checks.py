"""The checks of a house: which there are, what is due today, what was found off and since when."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.checks import (
    ORDER,
    PRACTICE,
    ListedCheck,
    Made,
    State,
    due_day,
    state_of,
    with_own,
)
from honeyledger.domain.moments import Moment, house_day, moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.domain.withholding import parse_interval
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import key_of, place
from honeyledger.ledger.state import Mark
from honeyledger.ledger.verbs.checks import CHECK, CHECKED, EQUIPMENT, Check, last_good
from honeyledger.ledger.yard_log import noted, told
from honeyledger.services.checks_used import Used, used_since
from honeyledger.services.holding import name_in
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View

LEFT_OUT = "left_out"
SMALL = 20_000
"""In a house of so many entries all that was ever made can be listed while a page opens."""


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A check of the house's list, of one piece of equipment where it is of some.

    Args:
        name: what it is of; "" for the house.
        last_day: when it was made last, ISO; `result` what came out then, by whom, with what.
        due: when it is due again; None where it was never found right.
        right_at: when it was last found right.
        since: found off, since when it may have been; None for as long as it has been here.
        entry: the entry that made it last.
    """

    check: ListedCheck
    equipment: str
    name: str
    state: State
    last_day: str = ""
    due: date | None = None
    result: str = ""
    value: str = ""
    note: str = ""
    by: str = ""
    right_at: Moment | None = None
    since: Moment | None = None
    entry: int = 0

    @property
    def key(self) -> str:
        """What the row is known by."""
        return f"{self.check.key}/{self.equipment}" if self.equipment else self.check.key


@dataclass(frozen=True, slots=True)
class ChecksPage:
    """All checks at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        used: of each check that was found off, what used it since, by the row's key; in a large
            house of those alone of which somebody knows since when.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    now_ms: int
    rows: tuple[CheckRow, ...]
    used: Mapping[str, Used]

    @property
    def waiting(self) -> int:
        """How many need a person."""
        return sum(row.state.needs_a_person for row in self.rows)

    def row(self, text: str) -> CheckRow | None:
        """A row by its key."""
        return next((row for row in self.rows if row.key == text.strip()), None)


def house_checks(view: View, shipped: Sequence[ListedCheck]) -> tuple[ListedCheck, ...]:
    """The program's list with the house's own over it."""
    own: list[ListedCheck] = []
    left_out: list[str] = []
    known = {check.key: check for check in shipped}
    for mark in view.marked("record", f"{CHECK}/"):
        key = key_of(mark.subject)
        if not isinstance(mark.value, Mapping):
            continue
        if mark.value.get(LEFT_OUT) == 1:
            left_out.append(key)
            continue
        own.append(_own(key, mark, known.get(key)))
    return with_own(shipped, own, left_out)


def _own(key: str, mark: Mark, before: ListedCheck | None) -> ListedCheck:
    """A check of the house's register; what it does not say is as it came with the program."""
    every = told(mark, "every")
    try:
        interval = parse_interval(every)
    except Refusal:
        interval = before.every if before else parse_interval("1 month")
    return ListedCheck(
        key=key,
        name=told(mark, "name"),
        look=told(mark, "look") or (before.look if before else ""),
        every=interval,
        sort=(told(mark, "sort") or (before.sort if before else "")).casefold(),
        source=told(mark, "source") or (before.source if before else PRACTICE),
    )


def check_rows(view: View, now_ms: int, shipped: Sequence[ListedCheck]) -> list[CheckRow]:
    """What is due today, what is overdue, what was found off; what needs a person first."""
    zone = rules_of(view).zone
    today = house_day(now_ms, zone)
    pieces: dict[str, list[str]] = {}
    for mark in view.marked("record", f"{EQUIPMENT}/"):
        sort = told(mark, "sort").casefold()
        pieces.setdefault(sort, []).append(mark.subject)
    rows: list[CheckRow] = []
    for check in house_checks(view, shipped):
        subjects = pieces.get(check.sort, []) if check.sort else [place(CHECK, check.key)]
        rows += [_row(view, check, subject, today, zone) for subject in subjects]
    return sorted(rows, key=lambda row: (ORDER.index(row.state), row.due or date.min, row.name))


def waiting_checks(view: View, now_ms: int, shipped: Sequence[ListedCheck]) -> int:
    """How many checks are found off, overdue or due; those never made are not counted yet."""
    rows = check_rows(view, now_ms, shipped)
    return sum(row.state.needs_a_person and row.state is not State.NEVER for row in rows)


def checks_page(view: View, now_ms: int, shipped: Sequence[ListedCheck]) -> ChecksPage:
    """All checks, what needs a person first, with what used what was found off."""
    zone = rules_of(view).zone
    rows = check_rows(view, now_ms, shipped)
    is_small = view.head().entry <= SMALL
    off = [row for row in rows if row.state is State.OFF and (row.since or is_small)]
    return ChecksPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        now_ms=now_ms,
        rows=tuple(rows),
        used={row.key: used_since(view, facts_of(row), now_ms) for row in off},
    )


def facts_of(row: CheckRow, result: str = "off") -> Check:
    """The facts that a row's check says again, for what used it since."""
    return Check(
        row.equipment,
        row.check.name,
        result,
        listed=row.check.key,
        since_ms=row.since.at_ms if row.since else 0,
    )


def _row(view: View, check: ListedCheck, subject: str, today: date, zone: str) -> CheckRow:
    is_piece = subject.startswith(f"{EQUIPMENT}/")
    code = key_of(subject) if is_piece else ""
    name = name_in(view, subject, code) if is_piece else ""
    marks = [mark for mark in noted(view, subject, CHECKED) if _is_of(mark, check)]
    if not marks:
        return CheckRow(check, code, name, State.NEVER)
    last = max(marks, key=lambda mark: (mark.at_ms, mark.entry))
    right = [mark for mark in marks if told(mark, "result") == "ok"]
    good = max(right, key=lambda mark: (mark.at_ms, mark.entry), default=None)
    due = due_day(check, _day(good, zone)) if good else None
    is_right = told(last, "result") == "ok"
    entry = view.entry(last.entry)
    by = entry.act.operator if entry else ""
    since_ms = int(told(last, "since") or 0)
    return CheckRow(
        check=check,
        equipment=code,
        name=name,
        state=state_of(Made(_day(last, zone), is_right), due, today),
        last_day=_day(last, zone).isoformat(),
        due=due,
        result=told(last, "result"),
        value=told(last, "value"),
        note=told(last, "note"),
        by=name_in(view, f"operator/{by}", by) if by else "",
        right_at=moment_at(good.at_ms, zone) if good else None,
        since=_off_since(view, subject, last, since_ms, zone) if not is_right else None,
        entry=last.entry,
    )


def _off_since(view: View, subject: str, off: Mark, since_ms: int, zone: str) -> Moment | None:
    """Since when it may have been off: as was said then, else since it was last found right."""
    if not since_ms:
        good = last_good(view, subject, told(off, "what"), told(off, "listed"), off.at_ms)
        since_ms = good.at_ms if good else 0
    return moment_at(since_ms, zone) if since_ms else None


def _is_of(mark: Mark, check: ListedCheck) -> bool:
    """Whether a check was this one; what names none of the list is any check of its piece."""
    listed = told(mark, "listed")
    return listed == check.key or (not listed and bool(check.sort))


def _day(mark: Mark, zone: str) -> date:
    """The local day on which a check was made."""
    return house_day(mark.at_ms, zone)
