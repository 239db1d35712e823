"""Commands of dispatch: what goes to customers, what comes back, what is thrown away."""

from collections.abc import Sequence

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import is_inside
from honeyledger.ledger.verbs.dispatch import Discard, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dispatch import Dispatch as Goes
from honeyledger.services.dispatching import COUNTED, parse_jars
from honeyledger.services.store import View

AMOUNT_TWICE = Sentence(
    "amount-twice", "How much of {code} is said twice: write it once, behind the code."
)
AMOUNT_BEHIND = Sentence(
    "amount-behind", "Of several lots put each amount behind its code, such as J26-0001-X=120."
)


@click.command(cls=Recording)
@click.argument("customer")
@click.argument("codes", nargs=-1, required=True, metavar="CODE[=AMOUNT]...")
@click.option("--carrier", default="", help="Who carries it.")
@click.option("--reference", default="", help="The customer's order number.")
@click.option("--contract", default="", help="The contract it is delivered on.")
@click.option("--vehicle", default="", help="Number plates of truck, trailer or tanker.")
@click.option("--freight-container", default="", help="Number of the container or flexitank.")
@click.option("--seal", "seals", multiple=True, help="Number of a seal; once for each.")
@click.option("--consignor", default="", help="In whose name it goes, where not the house's.")
@click.option("--title-to", default="", metavar="OWNER", help="Title goes over with it, to them.")
@click.pass_obj
def dispatch(
    desk: Desk,
    customer: str,
    codes: Sequence[str],
    carrier: str,
    reference: str,
    contract: str,
    vehicle: str,
    freight_container: str,
    seals: Sequence[str],
    consignor: str,
    title_to: str,
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
    desk.record(
        Goes(
            customer,
            lines,
            carrier,
            reference,
            contract,
            vehicle,
            freight_container,
            tuple(seals),
            consignor,
            title_to,
        )
    )


def _line(desk: Desk, text: str) -> DispatchLine:
    code, _, amount = text.partition("=")
    if not amount:
        return DispatchLine(code)
    if desk.ask(lambda view: find_lot(view, code, field="code")).kind in COUNTED:
        return DispatchLine(code, jars=parse_jars(amount))
    return DispatchLine(code, net_g=desk.the_mass(amount, "net_g"))


def _jars(text: str | None) -> int | None:
    """So many jars; None where none are said."""
    return None if text is None else parse_jars(text)


@click.command("take-back", cls=Recording)
@click.argument("customer")
@click.argument("codes", nargs=-1, required=True, metavar="CODE[=AMOUNT]...")
@click.option("--reason", default="", help="Why it comes back.")
@click.option("--jars", metavar="COUNT", help="So many jars; else all the customer had.")
@click.option("--net", metavar="WEIGHT", help="So much by weight.")
@click.pass_obj
def take_back(
    desk: Desk,
    customer: str,
    codes: Sequence[str],
    reason: str,
    jars: str | None,
    net: str | None,
) -> None:
    """Something a customer had comes back.

    Several lots may come back at once, with amounts behind their codes as in dispatch; the code
    of a dispatch note stands for all of it that the customer still has.

    \b
    Example: honeyledger take-back "Corner Shop" N26-0012-S --reason "moisture above contract"
    Example: honeyledger take-back "Corner Shop" J26-0004-T --jars 12 --reason dented
    Undo: reverse the entry.
    """
    if len(codes) == 1 and "=" not in codes[0]:
        facts = TakeBack(customer, codes[0], reason, _jars(jars), desk.mass(net, "net_g"))
    elif jars is None and net is None:
        facts = TakeBack(customer, "", reason, lines=tuple(_line(desk, text) for text in codes))
    else:
        raise Refusal(AMOUNT_BEHIND, field="jars")
    recorded = desk.house.record(facts, desk.said())
    back = desk.ask(lambda view: _came_back(view, recorded.entries[-1]))
    answer = output.recorded_json(recorded, desk.digest_of(recorded))

    def show() -> None:
        output.show_recorded(recorded, desk.shown)
        for lot, grams, count in back:
            pieces = f" in {count} jars" if count else ""
            output.say(f"{output.GAP}{lot}{output.GAP}{desk.shown(grams)} came back{pieces}")

    rows = [{"code": lot, "grams": grams, "jars": count} for lot, grams, count in back]
    desk.answer({**answer, "came_back": rows}, show)


def _came_back(view: View, entry: Entry) -> list[tuple[str, int, int]]:
    """The lots that came back, with the grams and jars the entry put into the house."""
    grams: dict[int, int] = {}
    for row in entry.postings:
        if is_inside(row.place):
            grams[row.lot] = grams.get(row.lot, 0) + row.grams
    pieces = {
        lot: int(str(count))
        for where, lot, count in rows_of(entry, "pieces")
        if is_inside(str(where))
    }
    lots = view.lots(grams)
    return [(lots[lot].code, grams[lot], pieces.get(lot, 0)) for lot in grams]


@click.command(cls=Recording)
@click.argument("code", metavar="CODE[=AMOUNT]")
@click.option("--reason", default="", help="Why it is thrown away.")
@click.option("--jars", metavar="COUNT", help="So many jars; else all there are.")
@click.option("--net", metavar="WEIGHT", help="So much by weight.")
@click.pass_obj
def discard(desk: Desk, code: str, reason: str, jars: str | None, net: str | None) -> None:
    """Honey is thrown away.

    \b
    Example: honeyledger discard J26-0004-T=3 --reason broken
    Undo: reverse the entry.
    """
    line = _line(desk, code)
    said = DispatchLine(line.code, _jars(jars), desk.mass(net, "net_g"))
    if line != DispatchLine(line.code):
        if said != DispatchLine(line.code):
            raise Refusal(AMOUNT_TWICE, field="jars", code=line.code)
        said = line
    desk.record(Discard(said.code, reason, said.jars, said.net_g))
