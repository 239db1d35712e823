"""Commands of bulk trade: samples judged, the buyer's scale, title, empties, the farm gate."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.drums import weight_of
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.moments import format_day, format_iso, format_moment
from honeyledger.domain.units import format_number
from honeyledger.ledger.offers import APPROVED, REFUSED
from honeyledger.ledger.verbs.trade import Approve, BuyersWeight, Empties, TransferTitle
from honeyledger.services.empties_owed import Owed, empties_owed
from honeyledger.services.gate_sales import GateSale
from honeyledger.services.gate_sales import gate_sales as sales_of


@click.command(cls=Recording)
@click.argument("sample")
@click.option("--refused", is_flag=True, help="The customer does not want it; else approved.")
@click.option("--reason", default="", help="Why it was refused.")
@click.option("--reference", default="", help="The customer's own number of the report.")
@click.option("--customer", default="", help="Who judged it, where it was drawn for nobody.")
@click.pass_obj
def approve(
    desk: Desk, sample: str, refused: bool, reason: str, reference: str, customer: str
) -> None:
    """A customer says what they think of a sample.

    It counts for all lots the sample is of, and is said before one of them leaves for them.

    \b
    Example: honeyledger approve X26-0003-P --reference L-88
    Example: honeyledger approve X26-0003-P --refused --reason "HMF 44"
    Undo: record the other verdict, or reverse the entry.
    """
    verdict = REFUSED if refused else APPROVED
    desk.record(Approve(sample, verdict, reason, reference, customer))


@click.command("buyers-weight", cls=Recording)
@click.argument("of", metavar="NOTE-or-LOT")
@click.option("--net", metavar="WEIGHT", help="Net weight on the buyer's ticket.")
@click.option("--gross", metavar="WEIGHT", help="Gross weight on it.")
@click.option("--tare", metavar="WEIGHT", help="Tare on it.")
@click.option("--customer", default="", help="Whose scale, where several have some of the lot.")
@click.option("--reference", default="", help="The ticket's number.")
@click.pass_obj
def buyers_weight(
    desk: Desk,
    of: str,
    net: str | None,
    gross: str | None,
    tare: str | None,
    customer: str,
    reference: str,
) -> None:
    """The buyer's scale says otherwise: of a whole dispatch note, or of one drum.

    The difference goes to weighing difference, each drum of a load taking its part.

    \b
    Example: honeyledger buyers-weight N26-0012-S --net 19311.2 --reference T-17
    Undo: give the right weight, or reverse the entry.
    """
    desk.record(BuyersWeight(of, weight_of(desk, net, gross, tare), customer, reference))


@click.command("transfer-title", cls=Recording)
@click.argument("owner")
@click.argument("lots", nargs=-1, required=True)
@click.option("--document", default="", help="The invoice, warrant or contract it goes over by.")
@click.option("--despite-hold", default="", metavar="WHY", help="Why held honey goes over.")
@click.pass_obj
def transfer_title(
    desk: Desk, owner: str, lots: Sequence[str], document: str, despite_hold: str
) -> None:
    """Stored drums get another owner and stay where they are.

    OWNER is a customer or a supplier, or "house" for the house itself.

    \b
    Example: honeyledger transfer-title "Corner Shop" D26-0011-4 D26-0012-2 --document INV-12
    Undo: transfer it back, or reverse the entry.
    """
    desk.record(TransferTitle(tuple(lots), owner, document, despite_hold))


@click.command(cls=Recording)
@click.argument("customer")
@click.argument("containers", nargs=-1, required=True)
@click.option("--kept", default="", metavar="WHY", help="They will never come back, and why.")
@click.pass_obj
def empties(desk: Desk, customer: str, containers: Sequence[str], kept: str) -> None:
    """Containers a customer had come back empty, or never will.

    \b
    Example: honeyledger empties "Corner Shop" "Drum 1" "Drum 2"
    Undo: reverse the entry: they are owed again.
    """
    desk.record(Empties(customer, tuple(containers), kept))


@click.command(cls=Asking)
@click.argument("customer", default="")
@click.pass_obj
def owed(desk: Desk, customer: str) -> None:
    """List the containers that are with customers, or with one.

    \b
    Example: honeyledger owed "Corner Shop"
    """
    rows = desk.ask(lambda view: empties_owed(view, customer))
    desk.answer_rows(
        {"owed": [_owed_json(row) for row in rows]},
        (
            Column("customer"),
            Column("container"),
            Column("sort"),
            Column("since"),
            Column("went with"),
            Column("note"),
        ),
        [
            [
                row.customer_name,
                row.name,
                row.sort,
                format_moment(row.since),
                row.lot,
                row.note,
            ]
            for row in rows
        ],
        "No container of the house is with a customer.",
    )


def _owed_json(row: Owed) -> dict[str, str]:
    return {
        "container": row.container,
        "name": row.name,
        "sort": row.sort,
        "customer": row.customer_name,
        "lot": row.lot,
        "note": row.note,
        "since": format_iso(row.since),
    }


@click.command("gate-sales", cls=Asking)
@click.option("--from", "first", metavar="DAY", help="From this day on.")
@click.option("--to", "last", metavar="DAY", help="Up to this day.")
@click.pass_obj
def gate_sales(desk: Desk, first: str | None, last: str | None) -> None:
    """List what went at the farm gate, day by day.

    \b
    Example: honeyledger gate-sales --from "1 Jul" --to "31 Jul"
    """
    days = desk.day(first, "first_day"), desk.day(last, "last_day")
    rows = desk.ask(lambda view: sales_of(view, *days))
    desk.answer({"sales": [_sale_json(row) for row in rows]}, lambda: _show_sales(desk, rows))


def _sale_json(row: GateSale) -> dict[str, object]:
    return {
        "day": row.day.isoformat(),
        "code": row.code,
        "name": row.name,
        "jars": row.jars,
        "grams": row.grams,
    }


def _show_sales(desk: Desk, rows: Sequence[GateSale]) -> None:
    if not rows:
        say("Nothing went at the farm gate.")
        return
    shown = []
    for day in dict.fromkeys(row.day for row in rows):
        today = [row for row in rows if row.day == day]
        for at, row in enumerate(today):
            jars = format_number(row.jars) if row.jars else ""
            first = "" if at else format_day(day)
            shown.append([first, row.code, row.name, jars, desk.shown(row.grams)])
        total = desk.shown(sum(row.grams for row in today))
        jars = format_number(sum(row.jars for row in today))
        shown.append(["", "", "in all", jars if jars != "0" else "", total])
    columns = (Column("day"), Column("lot"), Column(""), Column("jars", right=True))
    table((*columns, Column("weight", right=True)), shown)
