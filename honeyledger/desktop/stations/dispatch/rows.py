"""From an open note and the page to what the tables, figures and the slot show."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.dispatch.picking import (
    Rest,
    grams_of,
    older_left,
    rests,
)
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked, jars_of
from honeyledger.domain.moments import day_of, moment_at
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_mass, format_number, parse_mass_g
from honeyledger.ledger.places import FARM_GATE
from honeyledger.services.dispatch_page import LATELY_DAYS, DispatchPage
from honeyledger.services.dispatching import PRODUCT, OnShelf

DRUMS = "lots/D"
GONE = phrase("gone")
HOLD = phrase("hold")
HOW_MANY = phrase("how many?")
TOO_MANY = phrase("too many")
OLDER = phrase("older left")
READY = phrase("ready")
TO_PICK = phrase("to pick")
PICKED = phrase("picked")
_MARKS: dict[str, Mark] = {
    GONE: Mark.WARNING,
    HOLD: Mark.HOLD,
    HOW_MANY: Mark.WARNING,
    TOO_MANY: Mark.WARNING,
    OLDER: Mark.WARNING,
    TO_PICK: Mark.NOTE,
}


def tr(text: str) -> str:
    """A word of this station, in the language in use."""
    return QCoreApplication.translate("dispatch", text)


def bare(grams: int, unit: MassUnit, decimals: int = 1) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")


def counted(number: int, one: str, many: str) -> str:
    """How many, with the right word for one."""
    return one if number == 1 else many.format(n=format_number(number))


def customer_words(customer: str) -> str:
    """A note's customer, in words."""
    if customer.strip().casefold() == FARM_GATE:
        return tr("the farm gate")
    return customer.strip() or tr("no customer yet")


def customer_key(customer: str, page: DispatchPage) -> str:
    """What a customer goes by in the ledger; "" for a name nobody has."""
    wanted = customer.strip().casefold()
    if wanted == FARM_GATE:
        return FARM_GATE
    found = (row.code for row in page.customers if wanted in (row.code, row.name.casefold()))
    return next(found, "")


@dataclass(frozen=True, slots=True)
class LineRow:
    """A line of an open note: something wanted, or a lot picked.

    Args:
        way: of a lot on hold, by which way the hold comes to it.
    """

    key: str
    code: str
    state: str
    name: str
    note: str
    count: str
    grams: int
    is_wanted: bool
    way: str = ""

    @property
    def mark(self) -> Mark:
        """Its state's mark."""
        return _MARKS.get(self.state, Mark.READY)


@dataclass(frozen=True, slots=True)
class Sum:
    """What is on a note in all; `gross_g` only where every line has one."""

    lots: int
    jars: int
    net_g: int
    gross_g: int | None


def line_rows(note: NoteTyped, page: DispatchPage) -> list[LineRow]:
    """What is still to pick, the lots picked, the newest first, and what of the order is done."""
    wanted = rests(note, page)
    picked = [_picked_row(one, note, page) for one in reversed(note.picked)]
    to_pick = [_wanted_row(one, note, page) for one in wanted if one.left]
    return to_pick + picked + [_wanted_row(one, note, page) for one in wanted if not one.left]


def group_name(group: str, page: DispatchPage) -> str:
    """A product or a kind of lot, as people ask for it."""
    found = page.group(group)
    if found is not None:
        return say(found.name)
    key = group.partition("/")[2]
    return next((row.name for row in page.products if row.code == key), key)


def capital(text: str) -> str:
    """A name as it stands at the beginning of a line."""
    return text[:1].upper() + text[1:]


def _wanted_row(rest: Rest, note: NoteTyped, page: DispatchPage) -> LineRow:
    words = tr("{done} of {wanted}")
    count = words.format(done=format_number(rest.picked), wanted=format_number(rest.wanted))
    return LineRow(
        key=rest.group,
        code="",
        state=TO_PICK if rest.left else PICKED,
        name=capital(group_name(rest.group, page)),
        note=_where_to_pick(rest, note, page) if rest.left else "",
        count=count,
        grams=0,
        is_wanted=True,
    )


def _where_to_pick(rest: Rest, note: NoteTyped, page: DispatchPage) -> str:
    """The oldest that may go and is not on the note, and how much of it there is."""
    group = page.group(rest.group)
    free = [code for code in (group.lots if group else ()) if not _is_all_picked(note, code, page)]
    row = page.on_shelf(free[0]) if free else None
    if row is None:
        return tr("none here that may go")
    if row.kind != "J":
        return tr("oldest: {code}").format(code=row.code)
    jars = counted(row.jars, tr("1 jar"), tr("{n} jars"))
    day = format_day(day_of(moment_at(row.made_ms, page.zone)))
    return tr("oldest: {code}, {jars}, {day}").format(code=row.code, jars=jars, day=day)


def _is_all_picked(note: NoteTyped, code: str, page: DispatchPage) -> bool:
    taken, row = note.find(code), page.on_shelf(code)
    if taken is None or row is None:
        return taken is not None
    return not taken.is_counted or (jars_of(taken) or 0) >= row.jars


def _picked_row(picked: Picked, note: NoteTyped, page: DispatchPage) -> LineRow:
    row = page.on_shelf(picked.code)
    net_g = net_of(picked, page.unit)
    return LineRow(
        key=picked.code,
        code=picked.code,
        state=_state(picked, row, note, page),
        name=_name(row),
        note=_note(picked, row, note, page),
        count=_count(picked, row),
        grams=0 if row is None else grams_of(picked, row, net_g),
        is_wanted=False,
        way=row.way if row is not None and row.way != row.held else "",
    )


def _count(picked: Picked, row: OnShelf | None) -> str:
    """How many jars, as typed while that is no number; of a case, what is in it."""
    if row is not None and row.contents:
        return format_number(row.jars)
    jars = jars_of(picked)
    return picked.jars if jars is None else format_number(jars)


def _name(row: OnShelf | None) -> str:
    if row is None:
        return ""
    names = {"D": tr("Drum"), "P": tr("Drum bought in"), "W": tr("Wax"), "K": tr("Comb honey")}
    if row.contents:
        pack = tr("Case") if row.kind == "C" else tr("Pallet")
        return tr("{pack}: {goods}").format(pack=pack, goods=row.name)
    return row.name or names.get(row.kind, "")


def net_of(picked: Picked, unit: MassUnit) -> int | None:
    """The weight typed for a part of a drum; None for all, and while it is no weight yet."""
    try:
        return parse_mass_g(picked.net, unit) if picked.net.strip() else None
    except Refusal:
        return None


def _state(picked: Picked, row: OnShelf | None, note: NoteTyped, page: DispatchPage) -> str:
    if row is None:
        return GONE
    if row.held:
        return HOLD
    if picked.is_counted and not jars_of(picked):
        return HOW_MANY
    if picked.is_counted and (jars_of(picked) or 0) > row.jars:
        return TOO_MANY
    return OLDER if older_left(note, picked.code, page) else READY


def _note(picked: Picked, row: OnShelf | None, note: NoteTyped, page: DispatchPage) -> str:
    if row is None:
        return tr("it is no longer here")
    if row.held:
        return row.held
    if picked.is_counted and (jars_of(picked) or 0) > row.jars:
        return tr("{n} are here").format(n=format_number(row.jars))
    older = older_left(note, picked.code, page)
    if older:
        words = tr("{code} is older: {jars} of it")
        jars = counted(older[0].jars, tr("1 jar"), tr("{n} jars"))
        return words.format(code=older[0].code, jars=jars)
    if row.pending:
        return tr("its weight is to follow")
    return serial_words(picked)


def serial_words(picked: Picked) -> str:
    """The jars that were scanned, in words."""
    if not picked.serials:
        return ""
    shown = [f"{serial:05d}" for serial in sorted(picked.serials)]
    if picked.is_span:
        return tr("jars {first} to {last}").format(first=shown[0], last=shown[-1])
    if len(shown) > 4:
        return tr("{first} and {n} more jars").format(first=shown[0], n=len(shown) - 1)
    return tr("jars {serials}").format(serials=", ".join(shown))


def sum_of(note: NoteTyped, page: DispatchPage) -> Sum:
    """What is on the note so far, by the books."""
    net = gross = jars = 0
    has_gross = bool(note.picked)
    for picked in note.picked:
        row = page.on_shelf(picked.code)
        if row is None:
            has_gross = False
            continue
        part = net_of(picked, page.unit)
        grams = grams_of(picked, row, part)
        net += grams
        jars += (jars_of(picked) or 0) if picked.is_counted else row.jars if row.contents else 0
        has_gross = has_gross and row.tare_g is not None and part is None
        gross += grams + (row.tare_g or 0)
    return Sum(len(note.picked), jars, net, gross if has_gross else None)


def sum_words(total: Sum, unit: MassUnit) -> str:
    """The first words of the foot: how many lots, and the gross where it is known."""
    if not total.lots:
        return tr("Nothing picked yet")
    words = counted(total.lots, tr("1 lot"), tr("{n} lots"))
    if total.gross_g is None:
        return words
    return tr("{lots}, gross {mass}").format(lots=words, mass=format_mass(total.gross_g, unit))


def sign_words(note: NoteTyped, page: DispatchPage | None) -> str:
    """What the button says that signs: what is on the note so far."""
    total = sum_of(note, page) if page else None
    if total is None or not total.lots:
        return tr("Sign and send")
    lots = counted(total.lots, tr("1 lot"), tr("{n} lots"))
    mass = format_mass(total.net_g, page.unit if page else "kg")
    return tr("Sign and send {lots}, {mass}").format(lots=lots, mass=mass)


def sum_totals(total: Sum, unit: MassUnit) -> dict[str, Total]:
    """The totals of a note, by column."""
    if not total.lots:
        return {}
    totals = {"net": Total(bare(total.net_g, unit), unit)}
    if total.jars:
        totals = {"count": Total(format_number(total.jars)), **totals}
    return totals


def line_columns(unit: MassUnit) -> tuple[Column[LineRow], ...]:
    """The columns of an open note."""
    return (
        Column("code", tr("Lot"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda row: tr(row.state),
            ColumnKind.STATE,
            mark=lambda r: r.mark,
        ),
        Column(
            "name",
            tr("Goods"),
            lambda row: row.name,
            ColumnKind.NAME,
            note=lambda row: row.note,
            detail=lambda row: row.way,
        ),
        Column("count", tr("Jars"), lambda row: row.count, ColumnKind.NUMBER),
        Column(
            "net",
            tr("Net"),
            lambda row: bare(row.grams, unit) if row.grams else "",
            ColumnKind.NUMBER,
            unit=unit,
        ),
    )


@dataclass(frozen=True, slots=True)
class Figure:
    """A key figure and what it is."""

    figure: str
    meaning: str


def lately_heading(name: str) -> str:
    """What stands above the figures of a customer."""
    return tr("{name} had in the last {n} days").format(name=name, n=LATELY_DAYS)


def lately_figures(page: DispatchPage, customer: str) -> list[Figure]:
    """What a customer had lately; nothing where it had nothing."""
    had = page.lately.get(customer)
    if had is None:
        return []
    notes = counted(had.notes, tr("on 1 note"), tr("on {n} notes"))
    figures = [Figure(format_mass(had.grams, page.unit, 0), notes)]
    if had.jars:
        figures.append(Figure(format_number(had.jars), tr("jars, less what came back")))
    last = format_day(day_of(moment_at(had.last_ms, page.zone)))
    return [*figures, Figure(last, tr("the last note"))]


def rest_words(left: Sequence[Rest], page: DispatchPage) -> str:
    """What is still to pick, in words: "100 Clover 500 g, 2 drums"."""
    return ", ".join(asked_words(one.group, one.left, page) for one in left if one.left)


def asked_words(group: str, count: int, page: DispatchPage) -> str:
    """So many of a group, in words: "264 Clover 500 g", "1 drum"."""
    name = tr("drum") if (group, count) == (DRUMS, 1) else group_name(group, page)
    return f"{format_number(count)} {name}"


def is_product(group: str) -> bool:
    """Whether a group is asked for by jars."""
    return group.startswith(PRODUCT)
