"""The inspector's pack on paper: one jar or lot, where it is from and how it was made.

No customer stands in it, and no coordinates.
"""

from datetime import date

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.list_paper import ListColumn, ListPaper, ListTable, list_pdf
from honeyledger.domain.moments import format_day, format_moment
from honeyledger.domain.units import format_mass, format_shares
from honeyledger.services.inspection import Done, Inspection

SHARES = "Shares are estimates by weight; what is in reach at 0.0 % clung to vessels not washed."
NOT_WHOLE = "A part of it came from a source that nobody named."


def inspection_pdf(
    pack: Inspection, typefaces: Typefaces, *, paper: str = "a4", copies: int = 1
) -> bytes:
    """Print the pack.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    listed = ListPaper(
        house=pack.house,
        title="For the inspector",
        of=pack.code,
        head=f"{pack.entries} {pack.digest[:12].upper()}",
        facts=(
            ("What", pack.product or pack.noun),
            ("Lot", pack.lot),
            ("Made", format_moment(pack.made)),
        ),
        says=(SHARES,) if pack.complete else (SHARES, NOT_WHOLE),
        tables=(
            _sources(pack),
            _yards(pack),
            _readings(pack),
            _done("Vessels washed", pack.washes, "No wash is on record for these days."),
            _done("Checks and calibrations", pack.checks, "None is on record for these days."),
            _history(pack),
            _complaints(pack),
        ),
        sign=("Shown by", "Inspector", "Day and time"),
        printed=pack.printed,
        again=pack.again,
    )
    return list_pdf(listed, typefaces, size=paper, copies=copies)


def _sources(pack: Inspection) -> ListTable:
    shares = format_shares([row.share for row in pack.sources])
    return ListTable(
        "Where its honey is from",
        (
            ListColumn("Source", 5),
            ListColumn("Share", 1.5, "%", right=True),
            ListColumn("Of it", 2, pack.unit, right=True),
            ListColumn("In it by", 4),
        ),
        [
            (
                row.name,
                share.removesuffix(" %"),
                format_mass(row.grams, pack.unit).removesuffix(f" {pack.unit}"),
                ", ".join(row.how),
            )
            for row, share in zip(pack.sources, shares, strict=True)
        ],
        none="Nothing is on record.",
    )


def _yards(pack: Inspection) -> ListTable:
    return ListTable(
        "What was done in those yards this season",
        (ListColumn("Yard", 3), ListColumn("Day", 2), ListColumn("What", 7)),
        [(row.yard, _day(row.day), str(row.what)) for row in pack.yards],
        none="Nothing is on record.",
    )


def _readings(pack: Inspection) -> ListTable:
    rows = []
    for kind in pack.readings:
        for one in kind.rows:
            by = one.laboratory or one.instrument or one.by
            words = f"{kind.quantity.name}: {one.words(kind.quantity)}"
            rows.append((format_moment(one.read_at), words, by, one.report or one.of))
    return ListTable(
        "Readings",
        (
            ListColumn("When", 2.5),
            ListColumn("What was read", 4),
            ListColumn("With, or by", 3),
            ListColumn("Report, sample", 2.5),
        ),
        rows,
        none="Nothing was read of it.",
    )


def _done(title: str, rows: tuple[Done, ...], none: str) -> ListTable:
    return ListTable(
        title,
        (
            ListColumn("When", 2.5),
            ListColumn("Of what", 3),
            ListColumn("What", 4),
            ListColumn("By", 2.5),
        ),
        [(format_moment(row.at), row.about or "the house", row.what, row.by) for row in rows],
        none=none,
    )


def _history(pack: Inspection) -> ListTable:
    return ListTable(
        "What became of it in the house",
        (ListColumn("When", 2.3), ListColumn("What", 8), ListColumn("By", 2)),
        [(format_moment(row.happened), str(row.sentence), row.by) for row in pack.history],
        none="Nothing is on record.",
    )


def _complaints(pack: Inspection) -> ListTable:
    return ListTable(
        "Complaints about it",
        (ListColumn("Day", 2), ListColumn("What was said", 5), ListColumn("Answer", 5)),
        [(_day(row.day), row.what, row.answer or "not answered yet") for row in pack.complaints],
        none="None.",
    )


def _day(iso: str) -> str:
    return format_day(date.fromisoformat(iso)) if iso else ""
