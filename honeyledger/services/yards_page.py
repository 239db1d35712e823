"""Everything the yards' station shows: each yard's season against its others, and what is due."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day, say_day
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import YARD, key_of, place
from honeyledger.ledger.yard_log import TREATED, flag_of, noted, told
from honeyledger.services.dock import Choice, choices
from honeyledger.services.season_pulls import Pull, pulls_of
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class SeasonGiven:
    """What a yard gave in a season, in grams; `season` is its year."""

    season: int
    pulls: int
    supers: int
    grams: int


@dataclass(frozen=True, slots=True)
class YardRow:
    """A yard.

    Args:
        record: its record, whole.
        state: "not clear", "flagged", "not yet pulled" or "pulled".
        due: what is due of it in words: a treatment that is not clear, a disease's flag.
        seasons: what it gave, this season first; this season is there without a pull, too.
    """

    code: str
    record: Mapping[str, Json]
    state: str
    due: str
    seasons: tuple[SeasonGiven, ...]
    last_pulled: str

    @property
    def name(self) -> str:
        """What it is called."""
        return self.text("name")

    @property
    def colonies(self) -> int:
        """How many colonies stand there by its record."""
        return self.number("colonies") or 0

    @property
    def now(self) -> SeasonGiven:
        """What it gave this season."""
        return self.seasons[0]

    def text(self, fact: str) -> str:
        """A fact of its record in words."""
        return str(self.record.get(fact, ""))

    def number(self, fact: str) -> int | None:
        """A fact of its record that is a number."""
        value = self.record.get(fact)
        return value if isinstance(value, int) else None

    def a_colony(self, given: SeasonGiven) -> int | None:
        """Grams a colony of a season, by the colonies that stand there now; None without any."""
        return given.grams // self.colonies if self.colonies else None


@dataclass(frozen=True, slots=True)
class TreatmentIn:
    """A treatment that nobody took out yet, by the number of the entry that began it."""

    entry: int
    yard: str
    product: str
    since: str


@dataclass(frozen=True, slots=True)
class YardsPage:
    """All yards at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        a_colony: grams a colony of this season, over all yards that were pulled; None of none.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    rows: tuple[YardRow, ...]
    boxes: tuple[Choice, ...]
    a_colony: int | None
    treatments: tuple[TreatmentIn, ...] = ()

    def row(self, text: str) -> YardRow | None:
        """A yard by its code or its name."""
        wanted = text.strip().casefold()
        for one in self.rows:
            if wanted and wanted in (one.code.casefold(), one.name.casefold()):
                return one
        return None


def yards_page(view: View, now_ms: int) -> YardsPage:
    """All yards by name, those with something due first, then those not yet pulled."""
    zone = rules_of(view).zone
    today = house_day(now_ms, zone)
    records = {
        mark.subject: mark.value
        for mark in view.marked("record", f"{YARD}/")
        if isinstance(mark.value, Mapping)
    }
    given: dict[str, list[Pull]] = {yard: [] for yard in records}
    for pull in pulls_of(view, list(records)):
        given[pull.yard].append(pull)
    # Each yard's are let go with its row: those of all yards at once would hold other threads.
    rows = [_row(view, yard, record, today, given.pop(yard)) for yard, record in records.items()]
    order = {"flagged": 0, "not clear": 1, "not yet pulled": 2}
    rows.sort(key=lambda row: (order.get(row.state, 3), row.name.casefold()))
    pulled = [row for row in rows if row.now.grams and row.colonies]
    colonies = sum(row.colonies for row in pulled)
    return YardsPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=today,
        rows=tuple(rows),
        boxes=choices(view, "box"),
        a_colony=sum(row.now.grams for row in pulled) // colonies if colonies else None,
        treatments=tuple(one for row in rows for one in _treatments_in(view, row.code)),
    )


def _row(
    view: View, yard: str, record: Mapping[str, Json], today: date, pulls: Sequence[Pull]
) -> YardRow:
    given: dict[int, list[int]] = {today.year: [0, 0, 0]}
    for pull in pulls:
        season = given.setdefault(pull.season, [0, 0, 0])
        for at, part in enumerate((int(pull.supers > 0), pull.supers, pull.grams)):
            season[at] += part
    seasons = tuple(SeasonGiven(year, *given[year]) for year in sorted(given, reverse=True))
    here = next(one for one in seasons if one.season == today.year)
    others = tuple(one for one in seasons if one.season < today.year)
    state, due = due_of(view, yard, today.isoformat())
    return YardRow(
        code=key_of(yard),
        record=record,
        state=state or (phrase("pulled") if here.pulls else phrase("not yet pulled")),
        due=due,
        seasons=(here, *others),
        last_pulled=max((pull.day.isoformat() for pull in pulls), default=""),
    )


def _treatments_in(view: View, code: str) -> list[TreatmentIn]:
    """Treatments of a yard that are in by the books."""
    marks = [
        mark for mark in noted(view, place(YARD, code), TREATED) if not told(mark, "last_day")
    ]
    return [
        TreatmentIn(
            int(mark.name.removeprefix(TREATED)),
            code,
            told(mark, "product"),
            told(mark, "first_day"),
        )
        for mark in marks
    ]


def due_of(view: View, yard: str, today: str) -> tuple[str, str]:
    """What a person has to know of a yard today: a disease before a treatment."""
    flag = flag_of(view, yard)
    if flag is not None:
        since = say_day(told(flag, "since"))
        words = phrase("flagged for {name} since {day}", name=told(flag, "name"), day=since)
        return phrase("flagged"), words
    for mark in reversed(noted(view, yard, TREATED)):
        clear = told(mark, "clear_day")
        if clear > today or (not clear and not told(mark, "last_day")):
            until: str = phrase("not out yet")
            if clear:
                until = phrase("not clear until {day}", day=say_day(clear))
            elif interval := told(mark, "interval"):
                until = phrase("not out yet, then {interval}", interval=interval)
            product = told(mark, "product")
            words = phrase("treated with {product}, {until}", product=product, until=until)
            return phrase("not clear"), words
    return "", ""
