"""Commands of dispatch: what goes to customers, what comes back, what is thrown away."""

from collections.abc import Sequence

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import is_inside
from honeyledger.ledger.verbs.dispatch import Discard, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dispatch import Dispatch as Goes
from honeyledger.services.dispatching import parse_jars
from honeyledger.services.store import View


@click.command(cls=Recording)
@click.argument("customer")
@click.argument("codes", nargs=-1, required=True, metavar="CODE[=AMOUNT]...")
@click.option("--carrier", default="", help="Who carries it.")
@click.option("--reference", default="", help="The customer's order number.")
@click.pass_obj
def dispatch(
    desk: Desk, customer: str, codes: Sequence[str], carrier: str, reference: str
) -> None:
    """Drums and jars go to a customer.

    CUSTOMER is a customer's name, or "gate" for the farm gate. All of each lot goes, unless an
    amount stands behind its code: so many jars (J26-0001-X=120), also by the case
    (J26-0001-X=10x12), or a weight (D26-0001-X=50).

    \b
    Example: honeyledger dispatch "Corner Shop" D26-0011-4 J26-0004-T=240 C26-0001-7
    Undo: take back, or reverse the entry.
    """
    lines = tuple(_line(desk, text) for text in codes)
    desk.record(Goes(customer, lines, carrier, reference))


def _line(desk: Desk, text: str) -> DispatchLine:
    code, _, amount = text.partition("=")
    if not amount:
        return DispatchLine(code)
    if desk.ask(lambda view: find_lot(view, code, field="code")).kind == "J":
        return DispatchLine(code, jars=parse_jars(amount))
    return DispatchLine(code, net_g=desk.the_mass(amount, "net_g"))


def _jars(text: str | None) -> int | None:
    """So many jars; None where none are said."""
    return None if text is None else parse_jars(text)


@click.command("take-back", cls=Recording)
@click.argument("customer")
@click.argument("code")
@click.option("--reason", default="", help="Why it comes back.")
@click.option("--jars", metavar="COUNT", help="So many jars; else all the customer had.")
@click.option("--net", metavar="WEIGHT", help="So much by weight.")
@click.pass_obj
def take_back(
    desk: Desk, customer: str, code: str, reason: str, jars: str | None, net: str | None
) -> None:
    """Something a customer had comes back.

    \b
    Example: honeyledger take-back "Corner Shop" J26-0004-T --jars 12 --reason dented
    Undo: reverse the entry.
    """
    facts = TakeBack(customer, code, reason, _jars(jars), desk.mass(net, "net_g"))
    recorded = desk.house.record(facts, desk.said())
    back = desk.ask(lambda view: [_came_back(view, entry) for entry in recorded.entries])
    answer = output.recorded_json(recorded, desk.digest_of(recorded))

    def show() -> None:
        output.show_recorded(recorded, desk.shown)
        for lot, grams, count in back:
            pieces = f" in {count} jars" if count else ""
            output.say(f"{output.GAP}{lot}{output.GAP}{desk.shown(grams)} came back{pieces}")

    rows = [{"code": lot, "grams": grams, "jars": count} for lot, grams, count in back]
    desk.answer({**answer, "came_back": rows}, show)


def _came_back(view: View, entry: Entry) -> tuple[str, int, int]:
    """The lot that came back, with the grams and jars the entry put into the house."""
    inside = [row for row in entry.postings if is_inside(row.place)]
    pieces = [row for row in rows_of(entry, "pieces") if is_inside(str(row[0]))]
    lot = view.lot(inside[0].lot).code
    return lot, sum(row.grams for row in inside), sum(int(str(row[2])) for row in pieces)


@click.command(cls=Recording)
@click.argument("code")
@click.option("--reason", default="", help="Why it is thrown away.")
@click.option("--jars", metavar="COUNT", help="So many jars; else all there are.")
@click.option("--net", metavar="WEIGHT", help="So much by weight.")
@click.pass_obj
def discard(desk: Desk, code: str, reason: str, jars: str | None, net: str | None) -> None:
    """Honey is thrown away.

    \b
    Example: honeyledger discard J26-0004-T --jars 3 --reason broken
    Undo: reverse the entry.
    """
    desk.record(Discard(code, reason, _jars(jars), desk.mass(net, "net_g")))
