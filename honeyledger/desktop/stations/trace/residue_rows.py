"""From a residue's spread to its answer, its table and its totals."""

from fractions import Fraction

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.trace.residue_presenter import ASSUMED, Feared
from honeyledger.desktop.stations.trace.words import bare, counted, tr
from honeyledger.domain.units import MassUnit, format_number, format_share
from honeyledger.services.residues import (
    MAY_BE,
    OVER,
    THOUSAND,
    UNDER,
    UNIT,
    ResidueLot,
    ResidueSpread,
)

# An upper bound under the limit is no clearance, so it has no tick.
_MARKS = {OVER: Mark.REFUSED, MAY_BE: Mark.WARNING, UNDER: Mark.NOTE}


def is_known(row: ResidueLot) -> bool:
    """Whether a mass on record says how much of it is in there; else only the bound is known."""
    return row.share > 0


def figure(thousandths: int) -> str:
    """A level as the terminal writes it."""
    return format_number(Fraction(thousandths, THOUSAND), 2)


def judged_words(judged: str) -> str:
    """How a lot stands against the limit."""
    words = {OVER: tr("over"), MAY_BE: tr("may be over"), UNDER: tr("under")}
    return words.get(judged, "")


def residue_columns(unit: MassUnit, *, judged: bool) -> tuple[Column[ResidueLot], ...]:
    """Every lot, with what is expected in it and the most it can be."""
    state: Column[ResidueLot] = Column(
        "limit",
        tr("Limit"),
        lambda row: judged_words(row.judged),
        ColumnKind.STATE,
        mark=lambda row: _MARKS.get(row.judged),
    )
    return (
        Column("code", tr("Lot"), lambda row: row.code, ColumnKind.CODE),
        *((state,) if judged else ()),
        Column("what", tr("What"), lambda row: row.noun, ColumnKind.NAME, from_width=560),
        Column(
            "share",
            tr("Share"),
            lambda row: format_share(row.share) if is_known(row) else tr("not known"),
            ColumnKind.NUMBER,
            sort_key=lambda row: row.share,
        ),
        Column(
            "expected",
            tr("Expected"),
            lambda row: figure(row.expected) if is_known(row) else tr("unknown"),
            ColumnKind.NUMBER,
            unit=UNIT,
            detail=_why_not,
            sort_key=lambda row: row.expected,
        ),
        Column(
            "most",
            tr("At most"),
            lambda row: figure(row.most),
            ColumnKind.NUMBER,
            unit=UNIT,
            sort_key=lambda row: row.most,
        ),
        Column(
            "here",
            tr("Here"),
            lambda row: bare(row.here_g, unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.here_g,
        ),
        Column(
            "sent",
            tr("Sent"),
            lambda row: bare(row.sent_g, unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.sent_g,
        ),
    )


def _why_not(row: ResidueLot) -> str:
    if is_known(row):
        return ""
    return tr("No mass on record says how much of it is in there; only the bound holds.")


def residue_totals(found: ResidueSpread, unit: MassUnit) -> tuple[str, dict[str, Total]]:
    """How many lots, how much of them is here and how much was sent: whole lots."""
    lead = counted(len(found.lots), tr("1 lot"), tr("{n} lots"))
    sums = {
        "here": sum(row.here_g for row in found.lots),
        "sent": sum(row.sent_g for row in found.lots),
    }
    return lead, {key: Total(bare(grams, unit) or "0.0") for key, grams in sums.items()}


def residue_figures(found: ResidueSpread) -> list[KeyFigure]:
    """How many lots stand how against the limit; those of no known share are counted apart."""
    known = [row for row in found.lots if is_known(row)]
    apart = len(found.lots) - len(known)
    shown = [
        KeyFigure(format_number(sum(row.judged == judged for row in known)), judged_words(judged))
        for judged in (OVER, MAY_BE, UNDER)
        if found.limit is not None
    ]
    if found.limit is None:
        shown.append(KeyFigure(format_number(len(known)), tr("with a share")))
    return [*shown, KeyFigure(format_number(apart), tr("share not known"))]


def residue_heading(feared: Feared | None) -> str:
    """The line above the answer."""
    if feared is None:
        return tr("Residue")
    what = feared.substance.strip() or tr("A residue")
    return tr("{what} in {code}").format(what=what, code=feared.code.strip())


def residue_answer(found: ResidueSpread, feared: Feared) -> str:
    """What was found or assumed there, and the worst that it comes to."""
    how = tr("Assumed {level}.") if feared.how == ASSUMED else tr("Measured {level}.")
    words = [how.format(level=f"{figure(found.level)} {UNIT}")]
    known = [row.judged for row in found.lots if is_known(row)]
    apart = len(found.lots) - len(known)
    if found.limit is not None:
        said = tr("Against {limit}: {over} over, {may} may be over.")
        words.append(
            said.format(
                limit=f"{figure(found.limit)} {UNIT}",
                over=counted(known.count(OVER), tr("1 lot"), tr("{n} lots")),
                may=format_number(known.count(MAY_BE)),
            )
        )
    else:
        words.append(counted(len(found.lots), tr("1 lot in reach."), tr("{n} lots in reach.")))
    if apart:
        said = counted(apart, tr("Of 1 lot it is not known."), tr("Of {n} lots it is not known."))
        words.append(said)
    return " ".join(words)
