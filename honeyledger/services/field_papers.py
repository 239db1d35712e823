"""The paper taken to a yard: what is known of it, and boxes to fill in by hand, in gloves.

Scanned at the dock on return, its code begins the yard's receipt. It asks for what the receipt
asks for, in the receipt's words.
"""

from collections.abc import Mapping
from datetime import date, timedelta

from honeyledger.domain.moments import house_day, say_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import YARD, key_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.yard_log import FOR_EVER, TREATED, flag_of, noted, told
from honeyledger.services.dock import choices
from honeyledger.services.holding import name_in
from honeyledger.services.labelling import FOLLOW_LABEL, head_text
from honeyledger.services.pulling_yards import yards_to_pull
from honeyledger.services.report_tables import Report, ReportTable, name
from honeyledger.services.season_pulls import pulls_of, yard_records
from honeyledger.services.season_yields import yields
from honeyledger.services.store import View

TREATED_SINCE_DAYS = 366
KINDS_MOST = 4
PALLET_ROWS = 4
ON_RETURN = "On return, scan the code at the dock: it begins this yard's receipt."
NO_TREATMENT = "No treatment is on record in the last twelve months."


def pull_sheet(view: View, now_ms: int, text: str) -> Report:
    """The pull sheet of a yard.

    Raises:
        Refusal: no such yard.
    """
    yard, record = find_record(view, YARD, text, "about")
    today = house_day(now_ms, rules_of(view).zone)
    code = key_of(yard)
    return Report(
        title="Pull sheet",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        of=code,
        scan=code,
        facts=_facts(view, code, record, today),
        says=(*_due(view, yard, today), ON_RETURN),
        tables=(
            _boxes(
                "At the yard",
                (3, 3, 4),
                ("Day", "Crew", "Truck or trailer"),
                ("Weather", "Hives pulled", "Hives left alone, and why"),
            ),
            _supers(view),
            _boxes("Pallets", (2.4, 1.8, 2.6, 6, 4), *[_PALLET] * PALLET_ROWS),
            _boxes("", (1,), ("Notes",), box_mm=22),
        ),
        sign=("Filled in by", "Taken in at the dock by", "Day and time"),
    )


_PALLET = ("Pallet", "Supers", "Kind", "Condition\nsealed\nmixed\ngreen", "Note")


def _boxes(
    title: str, parts: tuple[float, ...], *rows: tuple[str, ...], box_mm: float = 14
) -> ReportTable:
    key = title.lower() or "notes"
    columns = tuple(name("", part) for part in parts)
    return ReportTable(key, title, columns, rows, box_mm=box_mm)


def _supers(view: View) -> ReportTable:
    """A box for each kind of super the house has, one for another kind, one for the sum."""
    kinds = tuple(one.name for one in choices(view, "box"))[:KINDS_MOST]
    row = (*kinds, "Another kind", "Supers in all")
    return _boxes("Supers by kind", (1,) * len(row), row)


def _facts(
    view: View, code: str, record: Mapping[str, Json], today: date
) -> tuple[tuple[str, str], ...]:
    pulls = pulls_of(view, list(yard_records(view)))
    given = yields(view, today.year, pulls)
    waiting = {one.code: one for one in yards_to_pull(view, given, pulls, today)}
    expected = "none by the books"
    if one := waiting.get(code):
        expected = f"about {one.supers}, by its colonies" if one.guessed else f"{one.supers}"
    now = next(row.now for row in given.yards if row.code == code)
    return (
        ("Yard", str(record.get("name", ""))),
        ("Place", str(record.get("place", ""))),
        ("Forage", str(record.get("forage", ""))),
        ("Colonies", str(record.get("colonies", ""))),
        ("Supers to expect", expected),
        ("Supers pulled this season", str(now.supers)),
    )


def _due(view: View, yard: str, today: date) -> tuple[str, ...]:
    """Disease first, then each treatment of the last year with the earliest day of a pull."""
    said = []
    if flag := flag_of(view, yard):
        said.append(
            f"Flagged for {told(flag, 'name')} since {say_day(told(flag, 'since'))}: nothing "
            "leaves this yard but by itself, and as your local code says."
        )
    first = (today - timedelta(days=TREATED_SINCE_DAYS)).isoformat()
    late = [one for one in noted(view, yard, TREATED) if _last(one) >= first]
    said += [_treated(one) for one in late]
    return (*(said or [NO_TREATMENT]), FOLLOW_LABEL)


def _last(treatment: Mark) -> str:
    """The last day a treatment is about; one that is in still lasts."""
    days = told(treatment, "clear_day"), told(treatment, "last_day")
    return max(days) or FOR_EVER


def _treated(treatment: Mark) -> str:
    product, since = told(treatment, "product"), say_day(told(treatment, "first_day"))
    out, clear = told(treatment, "last_day"), told(treatment, "clear_day")
    words = (
        f"Treated with {product}, in {since}, {f'out {say_day(out)}' if out else 'not out yet'}: "
    )
    if clear:
        return f"{words}no super comes off before {say_day(clear)}."
    if interval := told(treatment, "interval"):
        return f"{words}no super comes off until {interval} after it came out."
    if not out:
        return f"{words}no super comes off."
    return f"{words}its label says when supers may come off."
