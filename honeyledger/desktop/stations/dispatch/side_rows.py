"""What stands beside an open note: what is on hand by product, the notes, who has a lot."""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import format_day, format_moment
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.dispatch.picking import rests
from honeyledger.desktop.stations.dispatch.rows import (
    bare,
    capital,
    counted,
    customer_words,
    rest_words,
    tr,
)
from honeyledger.desktop.stations.dispatch.typed import NoteTyped
from honeyledger.domain.moments import day_of, moment_at
from honeyledger.domain.units import MassUnit, format_number
from honeyledger.services.dispatch_notes import REVERSED, NoteRow, customer_of
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatch_returns import CameBack
from honeyledger.services.dispatching import GroupOnHand

OPEN = "open"
ASIDE = "aside/"


@dataclass(frozen=True, slots=True)
class HandRow:
    """A product, or drums, on hand."""

    key: str
    oldest: str
    name: str
    note: str
    held: int
    lots: int
    jars: int
    grams: int


@dataclass(frozen=True, slots=True)
class SideNote:
    """A note: one still open on this computer, or one that was sent; `at_ms` is 0 of open ones."""

    key: str
    code: str
    state: str
    customer: str
    note: str
    when: str
    at_ms: int
    jars: int
    grams: int

    @property
    def mark(self) -> Mark:
        """Its state's mark."""
        return {OPEN: Mark.WORKING, REVERSED: Mark.REVERSED}.get(self.state, Mark.READY)


@dataclass(frozen=True, slots=True)
class HadRow:
    """A customer who has something of the lot that comes back."""

    key: str
    name: str
    when: str
    jars: int
    grams: int


def hand_rows(page: DispatchPage) -> list[HandRow]:
    """What there is, jars by product first."""
    return [_hand_row(group, page) for group in page.on_hand]


def _hand_row(group: GroupOnHand, page: DispatchPage) -> HandRow:
    oldest = page.on_shelf(group.lots[0]) if group.lots else None
    parts = []
    if oldest is not None:
        day = format_day(day_of(moment_at(oldest.made_ms, page.zone)))
        parts.append(tr("oldest of {day}").format(day=day))
    if group.held:
        parts.append(counted(group.held, tr("1 more on hold"), tr("{n} more on hold")))
    return HandRow(
        key=group.group,
        oldest=oldest.code if oldest else "",
        name=capital(say(group.name)),
        note=", ".join(parts),
        held=group.held,
        lots=len(group.lots),
        jars=group.jars,
        grams=group.grams,
    )


def hand_columns(unit: MassUnit) -> tuple[Column[HandRow], ...]:
    """The columns of what is on hand."""
    return (
        Column("oldest", tr("Oldest first"), lambda row: row.oldest, ColumnKind.CODE),
        Column(
            "name",
            tr("Goods"),
            lambda row: row.name,
            ColumnKind.NAME,
            note=lambda row: row.note,
            mark=lambda row: Mark.HOLD if row.held else None,
        ),
        Column("lots", tr("Lots"), lambda row: format_number(row.lots), ColumnKind.NUMBER),
        Column(
            "jars",
            tr("Jars"),
            lambda row: format_number(row.jars) if row.jars else "",
            ColumnKind.NUMBER,
        ),
        Column(
            "grams",
            tr("Net"),
            lambda row: bare(row.grams, unit, 0),
            ColumnKind.NUMBER,
            unit=unit,
            from_width=520,
        ),
    )


def hand_totals(rows: Sequence[HandRow], unit: MassUnit) -> dict[str, Total]:
    """All that may go."""
    return {
        "lots": Total(format_number(sum(row.lots for row in rows))),
        "jars": Total(format_number(sum(row.jars for row in rows))),
        "grams": Total(bare(sum(row.grams for row in rows), unit, 0), unit),
    }


def note_rows(page: DispatchPage, aside: Sequence[NoteTyped], customer: str) -> list[SideNote]:
    """Open notes first; of those sent, the customer's in hand first, then the newest."""
    sent = sorted(page.notes, key=lambda row: customer_of(row.customer) != customer)
    opened = [_open_row(at, note, page) for at, note in enumerate(aside)]
    return opened + [_sent_row(row) for row in sent]


def _open_row(at: int, note: NoteTyped, page: DispatchPage) -> SideNote:
    left = rest_words(rests(note, page), page)
    picked = counted(len(note.picked), tr("1 lot picked"), tr("{n} lots picked"))
    words = tr("still to pick: {rest}").format(rest=left) if left else picked
    return SideNote(
        key=f"{ASIDE}{at}",
        code="",
        state=OPEN,
        customer=customer_words(note.customer),
        note=words,
        when="",
        at_ms=0,
        jars=0,
        grams=0,
    )


def _sent_row(row: NoteRow) -> SideNote:
    return SideNote(
        key=row.code,
        code=row.code,
        state=row.state,
        customer=row.name,
        note=", ".join(part for part in (row.reference, row.carrier) if part),
        when=format_day(day_of(row.happened)),
        at_ms=row.happened.at_ms,
        jars=row.jars,
        grams=row.grams,
    )


def note_columns(unit: MassUnit) -> tuple[Column[SideNote], ...]:
    """The columns of the notes."""
    return (
        Column("code", tr("Note"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda row: tr(row.state),
            ColumnKind.STATE,
            mark=lambda r: r.mark,
        ),
        Column(
            "customer",
            tr("Customer"),
            lambda row: row.customer,
            ColumnKind.NAME,
            note=lambda row: row.note,
        ),
        Column("when", tr("Sent"), lambda row: row.when, from_width=660),
        Column(
            "jars",
            tr("Jars"),
            lambda row: format_number(row.jars) if row.jars else "",
            ColumnKind.NUMBER,
        ),
        Column(
            "grams",
            tr("Net"),
            lambda row: bare(row.grams, unit, 0) if row.grams else "",
            ColumnKind.NUMBER,
            unit=unit,
        ),
    )


def had_rows(back: CameBack | None, page: DispatchPage) -> list[HadRow]:
    """Who has something of what comes back, the latest note first."""
    rows = []
    for one in back.holders if back else ():
        when = format_moment(moment_at(one.sent_ms, page.zone)) if one.sent_ms else ""
        rows.append(HadRow(one.customer, one.name, when, one.jars, one.grams))
    return rows


def had_columns(unit: MassUnit) -> tuple[Column[HadRow], ...]:
    """The columns of who has a lot."""
    return (
        Column("name", tr("Customer"), lambda row: row.name, ColumnKind.NAME),
        Column("when", tr("Last sent"), lambda row: row.when, from_width=520),
        Column(
            "jars",
            tr("Jars"),
            lambda row: format_number(row.jars) if row.jars else "",
            ColumnKind.NUMBER,
        ),
        Column(
            "grams", tr("Net"), lambda row: bare(row.grams, unit), ColumnKind.NUMBER, unit=unit
        ),
    )
