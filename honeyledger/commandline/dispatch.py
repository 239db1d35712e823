"""Commands of dispatch: what goes to customers, what comes back, what is thrown away."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.units import parse_count
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.verbs.dispatch import Discard, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dispatch import Dispatch as Goes

JARS = "a number of jars"


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
    amount stands behind its code: so many jars (J26-0001-X=120), or a weight (D26-0001-X=50).
    """
    lines = tuple(_line(desk, text) for text in codes)
    desk.record(Goes(customer, lines, carrier, reference))


def _line(desk: Desk, text: str) -> DispatchLine:
    code, _, amount = text.partition("=")
    if not amount:
        return DispatchLine(code)
    if desk.ask(lambda view: find_lot(view, code, field="code")).kind == "J":
        return DispatchLine(code, jars=parse_count(amount, JARS, field="jars"))
    return DispatchLine(code, net_g=desk.the_mass(amount, "net_g"))


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
    """Something a customer had comes back."""
    desk.record(
        TakeBack(customer, code, reason, desk.count(jars, JARS, "jars"), desk.mass(net, "net_g"))
    )


@click.command(cls=Recording)
@click.argument("code")
@click.option("--reason", default="", help="Why it is thrown away.")
@click.option("--jars", metavar="COUNT", help="So many jars; else all there are.")
@click.option("--net", metavar="WEIGHT", help="So much by weight.")
@click.pass_obj
def discard(desk: Desk, code: str, reason: str, jars: str | None, net: str | None) -> None:
    """Honey is thrown away."""
    desk.record(Discard(code, reason, desk.count(jars, JARS, "jars"), desk.mass(net, "net_g")))
