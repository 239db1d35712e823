"""Traces: where a code comes from, and where it went."""

from time import perf_counter

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.domain.units import format_share, format_shares
from honeyledger.ledger.heat import heated_among
from honeyledger.ledger.sources import number_of
from honeyledger.ledger.trace_rows import AddedLot, Ancestor, BackTrace, ForwardTrace
from honeyledger.services import through as asking
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back, trace_forward

CODE = Column("code")
INGREDIENT = "ingredient"


@click.command(cls=Asking)
@click.argument("code")
@click.option(
    "--forward", is_flag=True, help="To lots, customers and stock instead of back to yards."
)
@click.option(
    "--from", "first", metavar="DAY", help="Forward from a yard: pulls from this day on."
)
@click.option("--to", "last", metavar="DAY", help="Forward from a yard: pulls up to this day.")
@click.pass_obj
def trace(desk: Desk, code: str, forward: bool, first: str | None, last: str | None) -> None:
    """Trace a code back to its yards, or forward to customers and stock.

    CODE is any lot's or jar's; forward also a yard's or supplier's code or name.

    \b
    Example: honeyledger trace J26-0004-00382-F
    Example: honeyledger trace "Mill Lane" --forward --from "1 Jul"
    """
    if forward or first or last:
        _forward(desk, code, desk.day(first, "from"), desk.day(last, "to"))
        return
    house = desk.house  # opening it is no part of the trace
    started = perf_counter()
    found = house.ask(lambda view: _back(view, code))
    seconds = perf_counter() - started
    heated = house.ask(lambda view: heated_among(view, [row.code for row in found[0].lots]))
    value = {**_back_json(*found, seconds), "heated": list(heated)}

    def show() -> None:
        _show_back(desk, *found, seconds)
        if heated:
            output.say(f"Heated: {', '.join(heated)}.")

    desk.answer(value, show)


@click.command(cls=Asking)
@click.argument("equipment", metavar="VESSEL")
@click.option("--from", "first", metavar="TIME", required=True, help="From when, local time.")
@click.option("--to", "last", metavar="TIME", help="Until when; else now.")
@click.pass_obj
def through(desk: Desk, equipment: str, first: str, last: str | None) -> None:
    """Show what went through a vessel, sieve or scale in a stretch of time, and where it went.

    \b
    Example: honeyledger through "Sump sieve" --from "24 Jul 2026 07:00" --to "24 Jul 2026 15:30"
    """
    times = [desk.moment_ms(text) for text in (first, last)]
    found = desk.ask(lambda view: asking.through(view, equipment, *times))
    trace = found.forward
    value = {
        "name": found.name,
        "margin_min": found.margin_min,
        "went_through": list(found.lots),
        **_forward_json(trace),
    }

    def show() -> None:
        codes = ", ".join(found.lots) or "nothing"
        output.say(f"Through {found.name}, {found.margin_min} min on either side added: {codes}.")
        if found.lots:
            _show_forward(desk, trace, 0.0)

    desk.answer(value, show)


def _back(view: View, code: str) -> tuple[BackTrace, str]:
    trace = trace_back(view, code, ribbons=False)
    return trace, view.lot(trace.lot).code


def _back_json(trace: BackTrace, lot: str, seconds: float) -> dict[str, object]:
    return {
        "code": trace.code,
        "lot": lot,
        "made_g": trace.made_g,
        "seconds": round(seconds, 6),
        "yards": [
            {
                "kind": row.kind,
                "code": row.code,
                "name": row.name,
                "share": row.share,
                "grams": row.grams,
                "how": list(row.how),
                "only_through_heel": row.only_through_heel,
            }
            for row in trace.ancestors
        ],
        "lots": [{"code": row.code, "kind": row.kind, "share": row.share} for row in trace.lots],
        "reach_complete": trace.reach_complete,
        "ingredients": [_added_json(row) for row in trace.added if row.sort == INGREDIENT],
        "packaging": [_added_json(row) for row in trace.added if row.sort != INGREDIENT],
    }


def _added_json(row: AddedLot) -> dict[str, object]:
    return {
        "code": row.code,
        "name": row.name,
        "supplier": row.supplier,
        "supplier_lot": row.supplier_lot,
        "share": row.share,
        "grams": row.grams,
    }


def _show_back(desk: Desk, trace: BackTrace, lot: str, seconds: float) -> None:
    of = f", a jar of {lot}" if lot != trace.code else ""
    output.say(f"{trace.code}{of}: {desk.shown(trace.made_g)}, traced in {seconds:.3f} s")
    shares = format_shares([row.share for row in trace.ancestors])
    output.table(
        (
            Column("share", right=True),
            Column("weight", right=True),
            CODE,
            Column("name"),
            Column("kind"),
            Column("how it is in"),
        ),
        [
            [share, _weight(desk, row.grams), row.code, row.name, row.kind, _how(row)]
            for share, row in zip(shares, trace.ancestors, strict=True)
        ],
    )
    for row in trace.added:
        part = f"{format_share(row.share)} " if row.sort == INGREDIENT else ""
        lot_text = f", their lot {row.supplier_lot}" if row.supplier_lot else ""
        output.say(f"With {part}{row.name} ({row.code}) of {row.supplier}{lot_text}.")
    if not trace.reach_complete:
        output.say("Some of it is of a source not known: name its pallet with amend.")


def _weight(desk: Desk, grams: int) -> str:
    return desk.shown(grams) if grams else "under 1 g"


def _how(row: Ancestor) -> str:
    how = ", ".join(row.how)
    return f"{how}; only through a heel" if row.only_through_heel else how


def _forward_json(trace: ForwardTrace) -> dict[str, object]:
    return {
        "lots": [
            {"code": row.code, "kind": row.kind, "share": row.share, "grams": row.grams}
            for row in trace.lots
        ],
        "customers": [
            {
                "code": row.code,
                "name": row.name,
                "lots": list(row.lots),
                "grams": row.grams,
                "jars": row.jars,
            }
            for row in trace.customers
        ],
        "on_hand": [
            {"place": row.place, "lot": row.lot, "grams": row.grams, "pieces": row.pieces}
            for row in trace.on_hand
        ],
        "on_hand_g": trace.on_hand_g,
    }


def _forward(desk: Desk, code: str, first: str, last: str) -> None:
    house = desk.house
    started = perf_counter()
    trace = house.ask(lambda view: trace_forward(view, code, first, last))
    seconds = perf_counter() - started
    value = {"code": trace.code, "seconds": round(seconds, 6), **_forward_json(trace)}
    desk.answer(value, lambda: _show_forward(desk, trace, seconds))


def _show_forward(desk: Desk, trace: ForwardTrace, seconds: float) -> None:
    output.say(
        f"{trace.code} forward: {number_of(len(trace.lots), 'lots')}, traced in {seconds:.3f} s"
    )
    output.table(
        (CODE, Column("kind"), Column("of it", right=True)),
        [
            [row.code, LOT_LETTERS.get(row.kind, ""), _weight(desk, row.grams)]
            for row in trace.lots
        ],
    )
    output.say()
    if trace.customers:
        output.table(
            (
                Column("customer"),
                Column("weight", right=True),
                Column("jars", right=True),
                Column("lots"),
            ),
            [
                [row.name, desk.shown(row.grams), str(row.jars or ""), " ".join(row.lots)]
                for row in trace.customers
            ],
        )
    else:
        output.say("No customer has any of it.")
    places = number_of(len(trace.on_hand), "places")
    output.say(f"On hand: {desk.shown(trace.on_hand_g)} in {places}.")
