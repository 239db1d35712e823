"""From a run's sheet to what its tables and bars show."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.balance_bars import BalanceBars, BalancePiece, PieceKind
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.extraction.typed import HeelTyped
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_moisture,
    format_number,
    format_shares,
)
from honeyledger.services.exposure import Called
from honeyledger.services.floor import CameOut, RunSheet, Tie
from honeyledger.services.pull_sheets import AgainstSheets

# So many times the usual is still usual; the same as the terminal has it.
USUAL_TIMES = 2


def _tr(text: str) -> str:
    return QCoreApplication.translate("extraction", text)


def bare(grams: int, unit: MassUnit, decimals: int = 1) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")


def counted(n: int, one: str, many: str) -> str:
    """A count with its noun."""
    return one if n == 1 else many.format(n=n)


@dataclass(frozen=True, slots=True)
class InRow:
    """A pull or a heel that went in; `note` says what is not a pull."""

    code: str
    yard: str
    supers: str
    grams: int
    note: str = ""
    heel: bool = False


@dataclass(frozen=True, slots=True)
class OutRow:
    """A drum, cappings or a heel that came out."""

    code: str
    moisture: str
    pfund_mm: float | None
    grams: int
    estimated: bool = False
    aside: str = ""


@dataclass(frozen=True, slots=True)
class TieRow:
    """A yard in the run, and what would be recalled with it."""

    code: str
    yard: str
    share: str
    recall: str
    note: str


def in_rows(sheet: RunSheet) -> tuple[InRow, ...]:
    """What went in, heels last."""
    rows = [InRow(r.code, r.yard_name, str(r.supers), r.grams) for r in sheet.went_in]
    rows += [
        InRow(heel.vessel, heel.name, "", heel.grams, _tr("heel"), heel=True)
        for heel in sheet.heels_in
    ]
    if poured_g := sheet.balance.poured_in_g:
        rows.append(InRow("", _tr("from drums and jars"), "", poured_g, _tr("poured back")))
    return tuple(rows)


def out_rows(
    sheet: RunSheet, heels: Sequence[HeelTyped], *, cappings_pending: bool
) -> tuple[OutRow, ...]:
    """What came out by scale, then cappings still to weigh, then the heels typed."""
    rows = [_out_row(one) for one in sheet.came_out]
    rows += [OutRow(name, "", None, grams, aside=aside) for name, aside, grams in _rest(sheet)]
    if cappings_pending:
        rows.append(OutRow(_tr("Cappings"), "", None, 0, True, _tr("weighed later")))
    words = {"dip": _tr("by dip"), "mark": _tr("by mark"), "guess": _tr("a guess")}
    rows += [
        OutRow(
            _tr("Heel left in {vessel}").format(vessel=heel.name),
            "",
            None,
            heel.grams,
            heel.how == "guess",
            words[heel.how],
        )
        for heel in heels
    ]
    return tuple(rows)


def _rest(sheet: RunSheet) -> list[tuple[str, str, int]]:
    """What came out besides drums, barrels and heels: its name, what it is, grams."""
    balance = sheet.balance
    rows = [
        (_tr("In drums left open"), _tr("not closed yet"), balance.part_filled_g),
        (_tr("Foam"), _tr("skimmed"), balance.skimmed_g),
        (_tr("Water"), _tr("evaporated"), balance.evaporated_g),
    ]
    return [row for row in rows if row[2]]


def _out_row(one: CameOut) -> OutRow:
    moisture = "" if one.moisture is None else format_moisture(one.moisture).removesuffix(" %")
    colour = None if one.colour is None else one.colour / 10
    aside = _tr("cappings") if one.kind == "W" else _tr("to follow") if one.pending else ""
    return OutRow(one.code, moisture, colour, one.grams, one.pending, aside)


def tie_rows(sheet: RunSheet) -> tuple[TieRow, ...]:
    """What recalling each yard would recall; the shares shown add up to the whole."""
    shares = format_shares([tie.share for tie in sheet.ties])
    return tuple(_tie_row(tie, share) for tie, share in zip(sheet.ties, shares, strict=True))


def _tie_row(tie: Tie, share: str) -> TieRow:
    drums = f"{tie.drums} + {tie.others}" if tie.others else str(tie.drums)
    note = _tr("through a heel only") if tie.only_through_heel else ""
    return TieRow(tie.code, tie.name, say(share).removesuffix(" %"), drums, note)


def ties_sentence(sheet: RunSheet) -> str:
    """What would have kept the drums apart."""
    names = [tie.name for tie in sheet.ties if tie.only_through_heel]
    others = max((tie.others for tie in sheet.ties), default=0)
    if not names:
        return _tr("No yard is here through a heel alone.")
    who = ", ".join(names[:3]) + (_tr(" and others") if len(names) > 3 else "")
    words = _tr(
        "{who}: here only through the heel. Emptied and washed between runs, the line would have "
        "kept these drums apart from {others} others."
    )
    if not others:
        words = _tr("{who}: here only through the heel of this line.")
    return words.format(who=who, others=others)


def exposure_sentence(called: Called | None, unit: MassUnit) -> str:
    """How large a recall of this run would be, while it is not signed; "" afterwards."""
    if called is None or not called.grams:
        return ""
    words = _tr("Were it called back now, {mass} in {lots} lots would go, from {n} customers.")
    return words.format(
        mass=format_mass(called.grams, unit, 0), lots=called.lots, n=called.customers
    )


# Against the pull sheets.


def against_heading(against: AgainstSheets) -> str:
    """What it is, and which pallets still have something on them."""
    return _not_empty(_tr("Against the pull sheets"), against)


def against_figures(against: AgainstSheets) -> list[KeyFigure]:
    """Supers, pallets and scans in doubt, each of how many."""
    empty = against.pallets - len(against.not_empty)
    supers = _tr("of {n} supers").format(n=format_number(against.on_sheets))
    pallets = counted(against.pallets, _tr("of 1 pallet empty"), _tr("of {n} pallets empty"))
    unsure = counted(
        against.unsure, _tr("scan at a time not sure"), _tr("scans at a time not sure")
    )
    return [
        KeyFigure(format_number(against.supers), supers),
        KeyFigure(str(empty), pallets),
        KeyFigure(str(against.unsure), unsure),
    ]


def against_sentence(against: AgainstSheets) -> str:
    """The same in one line."""
    figures = ", ".join(f"{one.figure} {one.meaning}" for one in against_figures(against))
    return _not_empty(_tr("Against the pull sheets: {figures}").format(figures=figures), against)


def _not_empty(words: str, against: AgainstSheets) -> str:
    if not against.not_empty:
        return words
    pallets = ", ".join(against.not_empty)
    return _tr("{words}; not empty: {pallets}").format(words=words, pallets=pallets)


def bars(sheet: RunSheet, heels: Sequence[HeelTyped], unit: MassUnit) -> BalanceBars:
    """In by estimate and out by scale, on one scale."""
    mean = _mean_colour(sheet)
    by_yard: dict[str, int] = {}
    for row in sheet.went_in:
        by_yard[row.yard_name] = by_yard.get(row.yard_name, 0) + row.grams
    went_in = [
        BalancePiece(name, f"≈ {bare(grams, unit, 0)}", grams, mean)
        for name, grams in sorted(by_yard.items(), key=lambda pair: -pair[1])
    ]
    if heel_in := sum(heel.grams for heel in sheet.heels_in):
        words = bare(heel_in, unit)
        went_in.append(BalancePiece(_tr("heel"), words, heel_in, mean, PieceKind.HEEL))
    if poured_g := sheet.balance.poured_in_g:
        went_in.append(BalancePiece(_tr("poured back"), bare(poured_g, unit), poured_g, mean))
    came_out = [_out_piece(one, mean, unit) for one in sheet.came_out]
    came_out += [
        BalancePiece(name, bare(grams, unit), grams, mean) for name, _, grams in _rest(sheet)
    ]
    if heel_out := sum(heel.grams for heel in heels):
        words = bare(heel_out, unit)
        came_out.append(BalancePiece(_tr("heel"), words, heel_out, mean, PieceKind.HEEL))
    verdict, is_loss = verdict_of(sheet, heel_out, unit)
    lost_g = sheet.balance.lost_g
    lost = _tr("Lost between weighed points: {mass}").format(mass=format_mass(lost_g, unit))
    title = _tr("In, by estimate, and out, by scale and dip")
    return BalanceBars(title, tuple(went_in), tuple(came_out), verdict, lost, is_loss)


def _mean_colour(sheet: RunSheet) -> float | None:
    """The run's mean colour by mass of the drums read: for drawing what was not read."""
    read = [(one.grams, one.colour) for one in sheet.came_out if one.colour is not None]
    total = sum(grams for grams, _ in read)
    return sum(grams * colour for grams, colour in read) / total / 10 if total else None


def _out_piece(one: CameOut, mean: float | None, unit: MassUnit) -> BalancePiece:
    colour = mean if one.colour is None else one.colour / 10
    if one.kind == "W":
        words = bare(one.grams, unit)
        return BalancePiece(_tr("cappings"), words, one.grams, colour, PieceKind.CAPPINGS)
    number = one.code.split("-")[-2]
    about = "≈ " if one.pending else ""
    return BalancePiece(number, f"{about}{bare(one.grams, unit)}", one.grams, colour, is_code=True)


def gap_g(sheet: RunSheet, heel_out_g: int) -> int:
    """Estimates less scales and dip: above 0 where the estimates ran high."""
    balance = sheet.balance
    out_g = balance.out_g - balance.heel_out_g + heel_out_g
    return balance.in_g - out_g - balance.lost_g


def verdict_of(sheet: RunSheet, heel_out_g: int, unit: MassUnit) -> tuple[str, bool]:
    """The difference in words, and whether it is a loss between weighed points."""
    gap = gap_g(sheet, heel_out_g)
    words = _tr("Estimates ran high by {mass}") if gap >= 0 else _tr("Estimates ran low by {mass}")
    is_loss = sheet.balance.lost_g * 100 > max(1, sheet.balance.out_g) * 2
    return words.format(mass=format_mass(abs(gap), unit)), is_loss


def answer(
    sheet: RunSheet, heels: Sequence[HeelTyped], unit: MassUnit, *, cappings_pending: bool
) -> str:
    """The sentence the closing page opens with."""
    heel_out = sum(heel.grams for heel in heels)
    balance = sheet.balance
    out_g = balance.out_g - balance.heel_out_g + heel_out
    permille = abs(gap_g(sheet, heel_out)) * 1000 // max(1, balance.in_g)
    side = _tr("high") if gap_g(sheet, heel_out) >= 0 else _tr("low")
    about = "≈ " if cappings_pending or any(heel.how == "guess" for heel in heels) else ""
    words = _tr(
        "In by estimate {into}, out by scale and dip {about}{out}. Estimates ran {part} % {side}, "
        "as is usual here ({usual} %)."
    )
    if permille > USUAL_TIMES * sheet.usual_permille:
        words = _tr(
            "In by estimate {into}, out by scale and dip {about}{out}. Estimates ran {part} % "
            "{side}, more than is usual here ({usual} %)."
        )
    return words.format(
        into=format_mass(balance.in_g, unit, 0),
        about=about,
        out=format_mass(out_g, unit),
        part=f"{permille / 10:.1f}",
        side=side,
        usual=f"{sheet.usual_permille / 10:.1f}",
    )


def in_columns(unit: MassUnit) -> tuple[Column[InRow], ...]:
    """The columns of what went in."""
    return (
        Column("code", _tr("Went in"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "yard",
            _tr("Yard"),
            lambda row: row.yard,
            ColumnKind.NAME,
            note=lambda row: row.note,
            mark=lambda row: Mark.HEEL if row.heel else None,
        ),
        Column("supers", _tr("Supers"), lambda row: row.supers, ColumnKind.NUMBER),
        Column(
            "honey",
            _tr("Honey"),
            lambda row: bare(row.grams, unit, 0),
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda row: not row.note,
        ),
    )


def out_columns(unit: MassUnit) -> tuple[Column[OutRow], ...]:
    """The columns of what came out."""
    return (
        Column(
            "code",
            _tr("Came out"),
            lambda row: row.code,
            ColumnKind.CODE,
            aside=lambda row: row.aside,
        ),
        Column("moisture", _tr("Moist."), lambda row: row.moisture, ColumnKind.NUMBER, unit="%"),
        Column(
            "colour",
            _tr("Colour"),
            kind=ColumnKind.COLOUR,
            unit="Pfund mm",
            pfund_mm=lambda row: row.pfund_mm,
        ),
        Column(
            "net",
            _tr("Net"),
            lambda row: bare(row.grams, unit),
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda row: row.estimated,
        ),
    )


def tie_columns() -> tuple[Column[TieRow], ...]:
    """The yards a run ties together, their shares, and what a recall of each would take."""
    return (
        Column("yard", _tr("Yard"), lambda r: r.yard, ColumnKind.NAME, note=lambda row: row.note),
        Column("share", _tr("Share"), lambda row: row.share, ColumnKind.NUMBER, unit="%"),
        Column("recall", _tr("Recalls"), lambda row: row.recall, unit=_tr("drums")),
    )
