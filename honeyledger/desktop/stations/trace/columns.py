"""The trace's tables: what a row says, and which columns show it."""

from dataclasses import dataclass
from datetime import date

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import format_day, format_days
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.trace.words import tr
from honeyledger.domain.units import format_shares
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.trace_page import TracePage, YardLine


@dataclass(frozen=True, slots=True)
class YardRow:
    """A first ancestor as the table shows it; `how` is its state, said by `how_words`."""

    code: str
    how: str
    only_heel: bool
    name: str
    place: str
    pulled: str
    forage: str
    share: str
    share_value: float
    grams: str
    treated: str = ""


@dataclass(frozen=True, slots=True)
class ReachedRow:
    """A customer or a place in the house that the honey has reached."""

    code: str
    where: str
    lots: str
    grams: str
    jars: str


def _state_mark(row: YardRow) -> Mark:
    if row.only_heel or row.how in ("heel", "margin"):
        return Mark.HEEL
    return Mark.NOTE if row.how in ("late", "amended") else Mark.READY


def how_words(how: str) -> str:
    """A state in at most two words."""
    words = {
        "direct": tr("direct"),
        "heel only": tr("heel only"),
        "heel": tr("heel"),
        "margin": tr("margin"),
        "late": tr("late"),
        "amended": tr("amended"),
    }
    return words.get(how, "")


def yard_columns() -> tuple[Column[YardRow], ...]:
    """Where it comes from, share by share."""
    return (
        Column("code", tr("Yard"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda row: how_words(row.how),
            ColumnKind.STATE,
            mark=_state_mark,
        ),
        Column("name", tr("Name"), lambda row: row.name, ColumnKind.NAME, strong=True),
        Column("place", tr("Place"), lambda row: row.place, from_width=1100),
        Column("pulled", tr("Pulled"), lambda row: row.pulled, from_width=700),
        Column("forage", tr("Forage"), lambda row: row.forage, from_width=900),
        Column("treated", tr("Treatments on record"), lambda row: row.treated, from_width=1400),
        Column(
            "share",
            tr("Share"),
            lambda row: row.share,
            ColumnKind.NUMBER,
            unit="%",
            sort_key=lambda row: row.share_value,
        ),
        Column("grams", tr("Of it"), lambda row: row.grams, ColumnKind.NUMBER, unit="g"),
    )


def reached_columns() -> tuple[Column[ReachedRow], ...]:
    """Where it went: customers, and places in the house."""
    return (
        Column("code", tr("Code"), lambda row: row.code, ColumnKind.CODE),
        Column("where", tr("Where"), lambda row: row.where, ColumnKind.NAME, strong=True),
        Column("lots", tr("Lots"), lambda row: row.lots, from_width=800),
        Column("jars", tr("Jars"), lambda row: row.jars, ColumnKind.NUMBER),
        Column("grams", tr("Mass"), lambda row: row.grams, ColumnKind.NUMBER),
    )


def yard_rows(page: TracePage) -> tuple[YardRow, ...]:
    """A trace's first ancestors, share by share; those with grams first, none left out."""
    shares = [say(one) for one in format_shares([line.row.share for line in page.yards])]
    return tuple(
        YardRow(
            code=line.row.code,
            how=_how(line.row),
            only_heel=line.row.only_through_heel,
            name=line.row.name,
            place=line.place,
            pulled=format_days([date.fromisoformat(day) for day in line.pulled]),
            forage=line.forage,
            share=share.removesuffix(" %"),
            share_value=line.row.share,
            grams=f"{line.row.grams:,}".replace(",", "\u202f") if line.row.grams else "< 1",
            treated=_treated(line),
        )
        for line, share in zip(page.yards, shares, strict=True)
    )


def _treated(line: YardLine) -> str:
    """The newest treatments of a yard, and how many more there are."""
    words = [
        f"{product}, {format_day(date.fromisoformat(day))}" if day else product
        for product, day in line.treated
    ]
    if line.row.kind != "yard":
        return ""
    if not words:
        return tr("none on record")
    return words[0] + (f" +{len(words) - 1}" if len(words) > 1 else "")


def _how(row: Ancestor) -> str:
    """The state of a first ancestor: the first way it is in, or that there is but the heel's."""
    if not row.only_through_heel and "grams" in row.how:
        return "direct"
    if row.how == ("heel",):
        return "heel only"
    first = row.how[0] if row.how else ""
    return "direct" if first == "grams" else first
