"""Papers of one lot: its history, its weigh ticket, its certificate's cover, its balance.

They say what the books say; what a laboratory or a buyer certifies is signed by them.
"""

from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.domain.moments import format_day, format_moment, moment_at, say_day
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_mass,
    format_moisture,
    format_shares,
)
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.lookup import find_lot
from honeyledger.services.claims import lot_claims, shares_text
from honeyledger.services.drum_list import IN_DRUMS, drum_list
from honeyledger.services.histories import history_of
from honeyledger.services.holding import name_in, noun_of
from honeyledger.services.labelling import head_text
from honeyledger.services.readings import Readings, readings_of
from honeyledger.services.report_tables import (
    Report,
    ReportTable,
    cells,
    code,
    figure,
    name,
)
from honeyledger.services.setup import mass_unit
from honeyledger.services.stock import Part, PlaceNames, lot_balance
from honeyledger.services.store import View
from honeyledger.services.trace_page import TracePage, YardLine, trace_page

ESTIMATES = (
    "Shares are estimates by weight; what is in reach at 0.0 % clung to vessels not washed."
)
NOT_ALL_NAMED = "A part of it came from a source that nobody named."
NOT_OURS = (
    "Results are as they were written down here. The laboratory's own reports, to be put behind "
    "this page, decide."
)
STILL_TO_WEIGH = "The weight is still to follow: weigh it, and write it in by hand."
NOTHING = "Nothing is on record."


def lot_history(view: View, now_ms: int, text: str) -> Report:
    """What became of a lot, entry by entry, in sentences; struck ones say what struck them."""
    lot = find_lot(view, text, field="code", reversed_too=True)
    unit = mass_unit(view)
    told = history_of(view, lot, view.history(lot.id), PlaceNames(view), unit)
    return Report(
        title="Lot history",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        of=lot.code,
        facts=(("What", noun_of(view, lot)), ("Made of", format_mass(lot.made_g, unit))),
        says=(),
        tables=(
            ReportTable(
                "history",
                "What became of it",
                (name("When", 2.6), name("What", 8), name("By", 2), figure("Entry", 1.2)),
                cells(
                    told,
                    lambda row: (
                        format_moment(row.happened),
                        f"{row.sentence} Struck by entry {row.reversed_by}."
                        if row.reversed_by
                        else str(row.sentence),
                        row.by,
                        str(row.entry),
                    ),
                ),
                none=NOTHING,
            ),
        ),
    )


def weigh_ticket(view: View, now_ms: int, text: str) -> Report:
    """One drum's weights with crop year and floral kind, signed at the scale."""
    lot = find_lot(view, text, IN_DRUMS, "code")
    drums, unit = drum_list(view, [lot.code]), mass_unit(view)
    row = drums.rows[0]
    page = trace_page(view, lot.code)
    kinds = dict.fromkeys(
        kind.strip()
        for line in page.yards
        if line.row.share
        for kind in line.forage.split(",")
        if kind.strip()
    )

    def mass(grams: int | None) -> str:
        return "" if grams is None or row.pending else format_mass(grams, unit)

    weights = (
        ("Gross", mass(row.gross_g)),
        ("Tare", "" if row.tare_g is None else format_mass(row.tare_g, unit)),
        ("Net", mass(row.net_g)),
        ("Moisture", "" if row.moisture is None else format_moisture(row.moisture)),
        ("Colour", "" if row.colour is None else format_colour(row.colour)),
    )
    return Report(
        title="Weigh ticket",
        house=drums.house,
        head=drums.head,
        of=lot.code,
        facts=(
            ("Filled", format_day(row.filled)),
            ("Crop year", str(row.season)),
            ("Floral kind", ", ".join(kinds) or "not stated"),
            ("Container", row.container or "one-way drum"),
            ("Supplier's lot", row.supplier_lot or "none"),
            ("Owner", row.owner or "the house"),
            ("Seal", row.seal or "none noted"),
        ),
        says=(STILL_TO_WEIGH,) if row.pending else (),
        tables=(
            ReportTable(
                "weights",
                "As weighed and read",
                (name("What", 3), figure("By the books", 3), name("At the scale, by hand", 4)),
                tuple((*pair, "") for pair in weights),
            ),
        ),
        sign=("Weighed by", "Scale", "Day and time"),
    )


def certificate_cover(view: View, now_ms: int, text: str) -> Report:
    """What stands before a laboratory's reports: the lot, its results with their reports."""
    lot = find_lot(view, text, field="code")
    unit, zone = mass_unit(view), rules_of(view).zone
    made = view.entry(lot.made_by)
    claims = lot_claims(view, lot.code).now
    day = moment_at(made.act.happened.at_ms if made else now_ms, zone)
    origin = shares_text(claims.countries) if claims else ""
    return Report(
        title="Certificate cover",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        of=lot.code,
        facts=(
            ("What", noun_of(view, lot)),
            ("Made", format_moment(day)),
            ("Made of", format_mass(lot.made_g, unit)),
            ("Crop year", str(lot.season)),
            ("Origin", origin or "not stated"),
        ),
        says=(NOT_OURS,),
        tables=(
            ReportTable(
                "results",
                "Results of it",
                (
                    name("What was read", 4),
                    name("Result", 3),
                    name("When", 2.6),
                    name("Laboratory, instrument", 3.4),
                    name("Report, sample", 2.6),
                ),
                tuple(row for kind in readings_of(view, lot) for row in _results(kind)),
                none="Nothing was read of it.",
            ),
        ),
        sign=("Released by", "Day", "Pages behind this one"),
    )


def _results(kind: Readings) -> tuple[tuple[str, ...], ...]:
    return cells(
        kind.rows,
        lambda one: (
            str(kind.quantity.name),
            str(one.words(kind.quantity)),
            format_moment(one.read_at),
            one.laboratory or one.instrument or one.by,
            one.report or one.sampled,
        ),
    )


def balance_of_lot(view: View, now_ms: int, text: str) -> Report:
    """Where a lot's grams came from and where they are; what came is what stands."""
    balance, unit = lot_balance(view, text), mass_unit(view)
    gone = (*balance.places, *balance.later)
    return Report(
        title="Mass balance",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        of=balance.code,
        facts=(
            ("Made of", format_mass(balance.made_g, unit)),
            ("In the house", format_mass(balance.on_hand_g, unit)),
            ("Not accounted for", format_mass(balance.gap_g, unit)),
        ),
        says=(),
        tables=(
            parts_table("came", "Came from", balance.came, unit),
            parts_table("gone", "Stands at, and went into", gone, unit),
        ),
        sign=("Added up by", "Day and time"),
    )


def parts_table(key: str, title: str, parts: tuple[Part, ...], unit: MassUnit) -> ReportTable:
    """Lines of a balance, with their sum."""
    total = format_mass(sum(part.grams for part in parts), unit)
    counted = any(part.pieces for part in parts)
    return ReportTable(
        key,
        title,
        (name("What", 5), figure("Honey", 2.4), figure("Supers, jars" if counted else "", 2)),
        cells(
            parts,
            lambda part: (
                str(part.name) or part.code,
                format_mass(part.grams, unit),
                str(part.pieces or ""),
            ),
        ),
        ("In all", total, "") if parts else (),
        none="Nothing.",
    )


def trace_report(view: View, now_ms: int, text: str) -> Report:
    """Where a lot or a jar is from: its first sources with shares, and every lot in its reach."""
    page, unit = trace_page(view, text), mass_unit(view)
    complete = page.trace.reach_complete
    return Report(
        title="Trace report",
        house=page.house or "Honey house",
        head=head_text(view),
        of=page.trace.code,
        facts=(
            ("Sources", str(len(page.yards))),
            ("Lots in reach", str(len(page.lots))),
            ("Accounted for", f"{page.accounted * 100:.1f} %"),
        ),
        says=(ESTIMATES, *page.holds) if complete else (ESTIMATES, NOT_ALL_NAMED, *page.holds),
        tables=(_sources(page, unit), _reach(page, unit)),
        bands=tuple((row.row.name, row.row.share) for row in page.yards if row.row.share),
        sign=("Traced by", "Seen by", "Day and time"),
    )


def _sources(page: TracePage, unit: MassUnit) -> ReportTable:
    shares = format_shares([line.row.share for line in page.yards])

    def row(line: YardLine, share: str) -> tuple[str, ...]:
        return (
            line.row.name,
            share,
            format_mass(line.row.grams, unit),
            ", ".join(say_day(day) for day in line.pulled),
            ", ".join(line.row.how),
        )

    return ReportTable(
        "sources",
        "Where its honey is from",
        (
            name("Source", 4),
            figure("Share", 1.6),
            figure("Of it", 2.4),
            name("Pulled", 3.4),
            name("In it by", 2.6),
        ),
        tuple(row(*pair) for pair in zip(page.yards, shares, strict=True)),
        none=NOTHING,
    )


def _reach(page: TracePage, unit: MassUnit) -> ReportTable:
    return ReportTable(
        "reach",
        "Every lot in its reach",
        (
            code("Lot", 3),
            name("Made", 2.2),
            name("What", 4),
            figure("Share", 1.6),
            figure("Of it", 2.4),
        ),
        tuple(
            (
                line.code,
                say_day(line.day),
                ", ".join(part for part in (LOT_LETTERS[line.kind], line.vessel) if part),
                "" if line.code == page.trace.code else f"{line.share * 100:.1f} %",
                format_mass(line.grams, unit),
            )
            for line in page.lots
        ),
        none=NOTHING,
    )
