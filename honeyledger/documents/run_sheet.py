"""A run's sheet on paper: what went in and came out, how it adds up, what it ties together.

Of an open run it is how things stand; of a closed one what was signed, with drums weighed since.
"""

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.list_paper import ListColumn, ListPaper, ListTable, list_pdf
from honeyledger.domain.moments import format_moment
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_mass,
    format_moisture,
    format_number,
    format_shares,
)
from honeyledger.ledger.run_balance import RunBalance
from honeyledger.services.floor import CameOut, RunSheet
from honeyledger.services.floor_papers import RunPaper


def run_sheet_pdf(
    run: RunPaper,
    typefaces: Typefaces,
    *,
    paper: str = "a4",
    unit: MassUnit = "kg",
    copies: int = 1,
) -> bytes:
    """Print a run's sheet.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    return list_pdf(_listed(run, unit), typefaces, size=paper, copies=copies)


def _listed(run: RunPaper, unit: MassUnit) -> ListPaper:
    sheet = run.sheet
    return ListPaper(
        house=run.house,
        title="Run sheet",
        of=sheet.run.code,
        head=run.head,
        facts=_facts(run),
        says=_says(sheet),
        tables=(
            _went_in(sheet, unit),
            _came_out(sheet, unit),
            _balance(sheet.balance, unit),
            _ties(sheet),
        ),
        anchors=True,
        sign=("Signature" if run.closed and run.signed_by else "Checked by", "Day and time"),
        printed=run.printed,
        again=run.again,
    )


def _facts(run: RunPaper) -> tuple[tuple[str, str], ...]:
    sheet, pace = run.sheet, run.sheet.pace
    facts = [
        ("Line", sheet.run.line_name),
        ("Opened", format_moment(run.opened)),
        ("Closed", format_moment(run.closed) if run.closed else "still open"),
    ]
    if run.signed_by:
        facts.append(("Signed by", run.signed_by))
    facts.append(("Supers, frames", f"{pace.supers}, {format_number(pace.frames)}"))
    if pace.frames_an_hour:
        facts.append(("Frames an hour", format_number(pace.frames_an_hour)))
    return tuple(facts)


def _says(sheet: RunSheet) -> tuple[str, ...]:
    """The run against its pull sheets, and estimates against scales, each in a sentence."""
    against, balance = sheet.against, sheet.balance
    words = [f"Against the pull sheets: {against.supers} of {against.on_sheets} supers."]
    if against.not_empty:
        words.append(f"Not empty: {', '.join(against.not_empty)}.")
    if against.unsure:
        words.append(f"Scans at a time not sure: {against.unsure}.")
    if not balance.in_g:
        return (" ".join(words),)
    permille = abs(balance.estimate_gap_g) * 1000 // balance.in_g
    side = "high" if balance.estimate_gap_g >= 0 else "low"
    usual = sheet.usual_permille
    estimates = (
        f"Estimates ran {permille // 10}.{permille % 10} % {side}; this house's usual is "
        f"{usual // 10}.{usual % 10} %."
    )
    return (" ".join(words), estimates)


def _bare(grams: int, unit: MassUnit, decimals: int = 1) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")


def _went_in(sheet: RunSheet, unit: MassUnit) -> ListTable:
    rows = [
        (row.code, row.yard_name, str(row.supers), f"≈ {_bare(row.grams, unit, 0)}")
        for row in sheet.went_in
    ]
    rows += [
        (heel.vessel, f"heel in {heel.name}", "", _bare(heel.grams, unit))
        for heel in sheet.heels_in
    ]
    if poured_g := sheet.balance.poured_in_g:
        rows.append(("", "poured back from drums and jars", "", _bare(poured_g, unit)))
    return ListTable(
        "Went in, by estimate",
        (
            ListColumn("Pull", 3, is_code=True),
            ListColumn("Yard", 5),
            ListColumn("Supers", 1.5, right=True),
            ListColumn("Honey", 2, unit, right=True),
        ),
        rows,
        ("In", "", str(sheet.balance.supers), f"≈ {_bare(sheet.balance.in_g, unit, 0)}"),
        none="Nothing was loaded.",
    )


def _came_out(sheet: RunSheet, unit: MassUnit) -> ListTable:
    rows = [_out_row(one, unit) for one in sheet.came_out]
    total_g = sum(one.grams for one in sheet.came_out)
    return ListTable(
        "Came out, by scale",
        (
            ListColumn("Drum or barrel", 3, is_code=True),
            ListColumn("Container", 4),
            ListColumn("Moisture", 1.8, "%", right=True),
            ListColumn("Colour", 1.8, "mm Pfund", right=True),
            ListColumn("Net", 2, unit, right=True),
        ),
        rows,
        ("In drums and barrels", "", "", "", _bare(total_g, unit)),
        none="Nothing was filled.",
    )


def _out_row(one: CameOut, unit: MassUnit) -> tuple[str, ...]:
    container = "cappings" if one.kind == "W" else one.container_name
    if one.pending:
        container = f"{container}, weight to follow".removeprefix(", ")
    return (
        one.code,
        container,
        "" if one.moisture is None else format_moisture(one.moisture).rpartition(" ")[0],
        "" if one.colour is None else format_colour(one.colour).partition(" ")[0],
        f"{'≈ ' * one.pending}{_bare(one.grams, unit)}",
    )


def _balance(balance: RunBalance, unit: MassUnit) -> ListTable:
    """Every line that is not nothing; they add up to what went in."""
    lines = [
        ("drums", sum(row.grams for row in balance.drums)),
        ("in drums left open", balance.part_filled_g),
        ("cappings" + ", more to be weighed" * balance.cappings_pending, _barrels_g(balance)),
        ("foam", balance.skimmed_g),
        ("water evaporated", balance.evaporated_g),
        ("heel left", balance.heel_out_g),
        ("lost between weighed points", balance.lost_g),
        ("estimates less scales", balance.estimate_gap_g),
    ]
    rows = [(words, _bare(grams, unit)) for words, grams in lines if grams]
    total = _bare(sum(grams for _, grams in lines), unit)
    return ListTable(
        "Adds up",
        (ListColumn("What", 6), ListColumn("Honey", 2, unit, right=True)),
        rows,
        ("What went in, by estimate", f"≈ {total}"),
        none="Nothing to add up.",
    )


def _barrels_g(balance: RunBalance) -> int:
    return sum(row.grams for row in balance.barrels)


def _ties(sheet: RunSheet) -> ListTable:
    shares = format_shares([row.share for row in sheet.ties])
    return ListTable(
        "What a recall of a yard would take",
        (
            ListColumn("Yard", 5),
            ListColumn("Share", 1.6, "%", right=True),
            ListColumn("Drums", 1.6, "of this run", right=True),
            ListColumn("Drums", 1.6, "of others", right=True),
            ListColumn("", 3),
        ),
        [
            (
                row.name,
                share.removesuffix(" %"),
                str(row.drums),
                str(row.others),
                "through a heel only" if row.only_through_heel else "",
            )
            for share, row in zip(shares, sheet.ties, strict=True)
        ],
        none="No drum was filled yet.",
    )
