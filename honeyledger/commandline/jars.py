"""Commands of jars after bottling: cases and pallets, labels put on later, complaints."""

from collections.abc import Sequence
from dataclasses import asdict

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import say_day
from honeyledger.domain.units import format_shares, parse_count
from honeyledger.ledger.trace_rows import BackTrace
from honeyledger.ledger.verbs.jars import Complain, LabelJars
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.services import complaints as asking


@click.command(cls=Recording)
@click.argument("codes", nargs=-1, required=True)
@click.option("--jars", metavar="COUNT", help="So many of each jar lot go into a case.")
@click.option("--cases", metavar="COUNT", default="1", help="So many cases like it.")
@click.pass_obj
def pack(desk: Desk, codes: Sequence[str], jars: str | None, cases: str) -> None:
    """Jars go into cases, or cases onto a shipping pallet; nothing is mixed by it.

    \b
    Example: honeyledger pack J26-0004-T --jars 12 --cases 20
    Example: honeyledger pack C26-0001-7 C26-0002-5
    Undo: unpack, or reverse the entry.
    """
    pieces = 0 if jars is None else parse_count(jars, "a number of jars", field="pieces")
    copies = parse_count(cases, "a number of cases", field="copies")
    desk.record(Pack(tuple(PackLine(code, pieces) for code in codes), copies))


@click.command(cls=Recording)
@click.argument("code")
@click.option("--reason", default="", help="Why.")
@click.pass_obj
def unpack(desk: Desk, code: str, reason: str) -> None:
    """A case or pallet is opened: what was in it stands by itself again.

    \b
    Example: honeyledger unpack C26-0001-7 --reason "one jar was broken"
    Undo: reverse the entry.
    """
    desk.record(Unpack(code, reason))


@click.command(cls=Recording)
@click.argument("lot")
@click.argument("jars")
@click.option("--product", default="", help="Under which product; else its own.")
@click.option("--roll", nargs=2, metavar="FIRST LAST", help="Numbers on the roll.")
@click.option("--torn", default="0", metavar="COUNT", help="Labels spoilt.")
@click.option("--seals", nargs=2, metavar="FIRST LAST", help="Numbers of the lid seals.")
@click.option("--packaging", multiple=True, metavar="CODE", help="Lots of labels, lids, seals.")
@click.pass_obj
def label(
    desk: Desk,
    lot: str,
    jars: str,
    product: str,
    roll: tuple[str, str] | None,
    torn: str,
    seals: tuple[str, str] | None,
    packaging: Sequence[str],
) -> None:
    """Jars of a lot are labelled, on a later day or under another product.

    \b
    Example: honeyledger label J26-0004-T 240 --torn 3 --roll 1001 1243
    Undo: reverse the entry.
    """
    first, last = (
        (None, None) if roll is None else (parse_count(one, field="roll_first") for one in roll)
    )
    desk.record(
        LabelJars(
            lot,
            parse_count(jars, "a number of jars", field="jars"),
            product,
            first,
            last,
            parse_count(torn, "a number of labels", field="torn"),
            *(seals or ("", "")),
            tuple(packaging),
        )
    )


@click.command(cls=Recording)
@click.argument("code")
@click.argument("what")
@click.option("--who", default="", help="Who says it.")
@click.option("--day", metavar="DAY", help="When it was said; else today.")
@click.option("--answer", default="", help="What they were answered, or what was found.")
@click.option("--completes", metavar="ENTRY", help="The entry that took it in, to answer it.")
@click.pass_obj
def complaint(
    desk: Desk,
    code: str,
    what: str,
    who: str,
    day: str | None,
    answer: str,
    completes: str | None,
) -> None:
    """A complaint about a jar or a lot is taken in, or answered.

    What may hurt someone: hold the lot, and tell your authority.

    \b
    Example: honeyledger complaint J26-0004-00382-F "a splinter of glass" --who "Ms Orla"
    Undo: reverse the entry.
    """
    number = (
        0 if completes is None else parse_count(completes, "an entry's number", field="completes")
    )
    desk.record(Complain(code, what, who, desk.day(day, "day"), answer, number))


@click.command(cls=Asking)
@click.argument("code", required=False, default="")
@click.pass_obj
def complaints(desk: Desk, code: str) -> None:
    """List complaints, or those about CODE, each with the trace of its jar.

    \b
    Example: honeyledger complaints J26-0004-T
    """
    rows, traces = desk.ask(
        lambda view: (
            rows := asking.complaint_rows(view, code),
            asking.traces_of(view, rows),
        )
    )
    value = {
        "complaints": [
            asdict(row) | {"trace": _trace_json(trace)}
            for row, trace in zip(rows, traces, strict=True)
        ]
    }
    desk.answer_rows(
        value,
        (
            Column("entry", right=True),
            Column("about"),
            Column("day"),
            Column("who"),
            Column("what", wraps=True),
            Column("answer", wraps=True),
            Column("from", wraps=True),
        ),
        [
            [
                str(row.number),
                row.jar or row.lot,
                say_day(row.day),
                row.who,
                row.what,
                row.answer or "open",
                _yards(trace),
            ]
            for row, trace in zip(rows, traces, strict=True)
        ],
        "There are no complaints.",
    )


def _trace_json(trace: BackTrace) -> list[dict[str, object]]:
    return [
        {"code": row.code, "name": row.name, "share": row.share, "how": list(row.how)}
        for row in trace.ancestors
    ]


def _yards(trace: BackTrace) -> str:
    shares = format_shares([row.share for row in trace.ancestors])
    return ", ".join(
        f"{row.name} {share}" for row, share in zip(trace.ancestors, shares, strict=True)
    )
