"""The tables of a call back: who has it, what became of every lot, who complained."""

from datetime import date

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.trace.words import bare, counted, tr
from honeyledger.domain.units import MassUnit, format_number
from honeyledger.services.affected import Affected, AffectedLot, Consignee
from honeyledger.services.recall_page import ComplaintLine

_FEW = 1


def who_columns(unit: MassUnit, *, in_full: bool = False) -> tuple[Column[Consignee], ...]:
    """Who has it; on paper with every lot and every note."""
    few = None if in_full else _FEW
    return (
        Column("name", tr("Who has it"), lambda one: one.name, ColumnKind.NAME, strong=True),
        Column(
            "notes", tr("By note"), lambda one: _notes(one, few), from_width=0 if in_full else 640
        ),
        Column(
            "lots", tr("Lots"), lambda one: _few(one.lots, few), from_width=0 if in_full else 520
        ),
        Column(
            "jars",
            tr("Jars"),
            lambda one: format_number(one.jars) if one.jars else "",
            ColumnKind.NUMBER,
            sort_key=lambda one: one.jars,
        ),
        Column(
            "grams",
            tr("Mass"),
            lambda one: bare(one.grams, unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda one: one.grams,
        ),
    )


def who_totals(scope: Affected, unit: MassUnit) -> tuple[str, dict[str, Total]]:
    """How many have it, and how much together."""
    lead = counted(len(scope.consignees), tr("1 customer"), tr("{n} customers"))
    return lead, {
        "jars": Total(format_number(scope.jars_sent)),
        "grams": Total(bare(scope.sent_g, unit) or "0.0", unit),
    }


def _notes(one: Consignee, most: int | None) -> str:
    words = [f"{note.code} {format_day(date.fromisoformat(note.day))}" for note in one.notes]
    return _few(words, most)


def _few(words: tuple[str, ...] | list[str], most: int | None) -> str:
    if most is None or len(words) <= most:
        return ", ".join(words)
    return f"{words[0]} +{len(words) - 1}"


def lot_state(row: AffectedLot) -> str:
    """What can still be done with a lot, in at most two words."""
    if not row.here_g:
        return tr("sent") if row.sent_g else tr("used up")
    return tr("on hold") if row.held else tr("free")


def _lot_mark(row: AffectedLot) -> Mark:
    if not row.here_g:
        return Mark.NOTE if row.sent_g else Mark.READY
    return Mark.HOLD if row.held else Mark.WARNING


def lot_columns(unit: MassUnit) -> tuple[Column[AffectedLot], ...]:
    """Every lot in scope, and what became of it."""

    def mass(key: str, title: str, wide: int = 0) -> Column[AffectedLot]:
        def grams(row: AffectedLot) -> int:
            return int(getattr(row, f"{key}_g"))

        return Column(
            key,
            title,
            lambda row: bare(grams(row), unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=grams,
            from_width=wide,
        )

    return (
        Column("code", tr("Lot"), lambda row: row.code, ColumnKind.CODE),
        Column("state", tr("State"), lot_state, ColumnKind.STATE, mark=_lot_mark),
        Column("where", tr("What and where"), _what, ColumnKind.NAME),
        mass("made", tr("Made"), 560),
        mass("here", tr("Here")),
        mass("sent", tr("Sent"), 420),
        mass("went_on", tr("Went on"), 760),
        mass("missing", tr("Missing"), 640),
    )


def _what(row: AffectedLot) -> str:
    noun, where = say(row.noun), say(row.where)
    return where or noun if not where or where.startswith(noun) else f"{noun}, {where}"


def lot_totals(scope: Affected, unit: MassUnit) -> tuple[str, dict[str, Total]]:
    """The sums of those amounts that stand once."""
    lead = counted(len(scope.lots), tr("1 lot"), tr("{n} lots"))
    sums = {"here": scope.here_g, "sent": scope.sent_g, "missing": scope.missing_g}
    return lead, {key: Total(bare(grams, unit) or "0.0", unit) for key, grams in sums.items()}


def complaint_columns() -> tuple[Column[ComplaintLine], ...]:
    """Complaints, each with the trace of its jar."""
    return (
        Column("code", tr("About"), lambda one: one.row.jar or one.row.lot, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda one: tr("open") if one.is_open else tr("answered"),
            ColumnKind.STATE,
            mark=lambda one: Mark.WARNING if one.is_open else Mark.READY,
        ),
        Column(
            "what",
            tr("What is wrong, from where"),
            lambda one: one.row.what,
            ColumnKind.NAME,
            note=lambda one: say(one.sources),
        ),
        Column("who", tr("Who says it"), lambda one: one.row.who, from_width=820),
        Column("day", tr("Day"), _day, ColumnKind.NUMBER, sort_key=lambda one: one.row.day),
        Column(
            "number",
            tr("Entry"),
            lambda one: str(one.row.number),
            ColumnKind.NUMBER,
            from_width=900,
        ),
    )


def _day(one: ComplaintLine) -> str:
    return format_day(date.fromisoformat(one.row.day))


def _number(one: ComplaintLine) -> str:
    return str(one.row.number)
