"""Commands that put a mistake right: amend, narrow, reverse."""

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_iso, format_moment
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_count
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.corrections import NO_ENTRY, Amend, Narrow, Reverse
from honeyledger.services.house import given_codes

NOT_ASKED = Sentence("say-yes", "This would reverse entry {entries}: say --yes to do it.")
NOT_AGREED = Sentence("not-agreed", "Nothing was reversed.")
ENTRY = "an entry's number"


@click.command(cls=Recording)
@click.argument("lot", required=False, default="")
@click.option("--reason", default="", help="What was wrong, in a word or two.")
@click.option("--yard", default="", help="The pull came from this yard.")
@click.option("--supplier", default="", help="The purchase came from this supplier.")
@click.option(
    "--pallet",
    default="",
    metavar="CODE",
    help="The honey of unknown source was this pallet.",
)
@click.option("--load", metavar="ENTRY", help="This load went into another vessel: give --vessel.")
@click.option("--vessel", default="", help="The vessel that --load went into.")
@click.option(
    "--source",
    default="",
    metavar="VESSEL",
    help="The drum was filled from this vessel.",
)
@click.option("--container", default="", help="The drum is in this container.")
@click.option("--filled-on", metavar="DAY", help="The drum was filled on this day.")
@click.option("--product", default="", help="The jar lot is of this product.")
@click.option(
    "--of-run", default="", metavar="RUN", help="The found drum, or --entry, is of this run."
)
@click.option("--entry", metavar="ENTRY", help="This entry is in no run: give --of-run.")
@click.pass_obj
def amend(
    desk: Desk,
    lot: str,
    reason: str,
    yard: str,
    supplier: str,
    pallet: str,
    load: str | None,
    vessel: str,
    source: str,
    container: str,
    filled_on: str | None,
    product: str,
    of_run: str,
    entry: str | None,
) -> None:
    """The honey is gone and the books were wrong.

    Codes stay; old and new are both shown, and both in reach until narrowed. With --pallet,
    say with --at when the pallet was loaded.

    \b
    Example: honeyledger amend S26-0012-9 --yard "Long Field" --reason "misread"
    Example: honeyledger amend S26-0012-9 --pallet G26-0007-E --reason "found empty"
    Example: honeyledger amend --entry 214 --of-run R26-0003-8 --reason "typed without"
    Undo: reverse the entry, or amend it back; both stay in reach until narrowed.
    """
    desk.record(
        Amend(
            lot=lot,
            reason=reason,
            yard=yard,
            supplier=supplier,
            pallet=pallet,
            load=desk.count(load, ENTRY, "load") or 0,
            vessel=vessel,
            source=source,
            container=container,
            filled_on=desk.day(filled_on, "filled_on"),
            product=product,
            run=of_run,
            entry=desk.count(entry, ENTRY, "entry") or 0,
        )
    )


@click.command(cls=Recording)
@click.argument("lot")
@click.option("--reason", default="", help="Why it cannot be in there.")
@click.option("--entry", default="0", metavar="ENTRY", help="The entry that wrote the row.")
@click.option("--line", default="0", metavar="N", help="The row's line in it; see the lot's card.")
@click.option(
    "--place",
    default="",
    metavar="YARD",
    help="A yard or supplier it was amended from.",
)
@click.pass_obj
def narrow(desk: Desk, lot: str, reason: str, entry: str, line: str, place: str) -> None:
    """Take one row of 0 g out of a lot's reach, by name.

    \b
    Example: honeyledger narrow D26-0011-4 --entry 214 --line 2 --reason "washed that noon"
    Undo: reverse the entry: the row is in reach again.
    """
    desk.record(
        Narrow(
            lot,
            reason,
            parse_count(entry, ENTRY, field="entry"),
            parse_count(line, "a line", field="line"),
            place,
        )
    )


@click.command(cls=Recording)
@click.argument("entry")
@click.option("--reason", default="", help="Why.")
@click.option("--chain", is_flag=True, help="With everything that is built on it, newest first.")
@click.option("--yes", is_flag=True, help="Do not ask before reversing a chain.")
@click.pass_obj
def reverse(desk: Desk, entry: str, reason: str, chain: bool, yes: bool) -> None:
    """Undo an entry that nothing is built on, or a whole chain.

    With --chain and --json, and without --yes, it answers what would be reversed.

    \b
    Example: honeyledger reverse 214 --chain --reason "typed twice"
    Undo: enter it again; a reversal is not reversed.
    """
    number = parse_count(entry, ENTRY, least=1, field="entry")
    if not chain:
        desk.record(Reverse(number, reason))
        return
    entries = desk.house.chain(number)
    if number not in [one.id for one in entries]:
        raise Refusal(NO_ENTRY, field="entry", entry=number)
    if desk.as_json and not yes:
        output.write_json({"done": False, "would_reverse": [_row_json(one) for one in entries]})
        return
    if not yes:
        _ask_first(desk, entries)
    recorded = desk.house.reverse_chain(number, reason, desk.said())
    answer = output.recorded_json(recorded, desk.digest_of(recorded))
    desk.answer({"done": True, **answer}, lambda: output.show_recorded(recorded, desk.shown))


def _row_json(entry: Entry) -> dict[str, object]:
    return {
        "entry": entry.id,
        "kind": entry.kind,
        "what": output.what_of(entry),
        "happened": format_iso(entry.act.happened),
        "codes": given_codes(entry),
    }


def _ask_first(desk: Desk, entries: list[Entry]) -> None:
    """Show what would be reversed and ask; where nobody can answer, --yes has to be said."""
    things = "1 entry" if len(entries) == 1 else f"{len(entries)} entries"
    output.say(f"{things} would be reversed, newest first:")
    output.table(
        (Column("entry", right=True), Column("happened"), Column("what"), Column("codes")),
        [
            [
                str(one.id),
                format_moment(one.act.happened),
                output.what_of(one),
                " ".join(given_codes(one)),
            ]
            for one in entries
        ],
    )
    try:
        agreed = click.confirm("Reverse them all?")
    except click.Abort as nobody:
        numbers = ", ".join(str(one.id) for one in entries)
        raise Refusal(NOT_ASKED, field="yes", entries=numbers) from nobody
    if not agreed:
        raise Refusal(NOT_AGREED, field="yes")
