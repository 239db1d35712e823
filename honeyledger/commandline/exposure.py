"""Recall exposure on the terminal: what would go with one thing today, or what ties most."""

from collections.abc import Sequence
from dataclasses import asdict

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.domain.units import format_number
from honeyledger.services.exposure import Called, Exposure, Tie, called_back
from honeyledger.services.exposure import exposure as exposure_of
from honeyledger.services.tied import Tied, tied_by_codes

MOST_ROWS = 8
WIDER = "A recall may have to go wider: agree its scope with your authority."
NOBODY_KNOWS = "Nobody knows a source of it."
ESTIMATE = (
    "A recall may have to go wider: agree its scope with your authority. Shares of a mix overlap."
)


@click.command(cls=Asking)
@click.argument("codes", required=False, nargs=-1, metavar="[CODE]...")
@click.pass_obj
def exposure(desk: Desk, codes: Sequence[str]) -> None:
    """Show how large a recall would be today: of CODE, or of each source, and what makes it so.

    CODE is a lot, a jar, a pallet, a run, a yard or a supplier; several drums or tanks are what
    they would tie together in one blend or bottling.

    \b
    Example: honeyledger exposure "Alderbight"
    """
    if len(codes) > 1:
        tied = desk.ask(lambda view: tied_by_codes(view, codes))
        answer = {"says": NOBODY_KNOWS} if tied is None else {**asdict(tied), "says": WIDER}
        desk.answer(answer, lambda: _show_tied(desk, tied))
        return
    if codes:
        called = desk.ask(lambda view: called_back(view, codes[0]))
        desk.answer({**asdict(called), "grams": called.grams}, lambda: _show_one(desk, called))
        return
    whole = desk.ask(exposure_of)
    desk.answer({**asdict(whole), "says": ESTIMATE}, lambda: _show(desk, whole))


def _show_one(desk: Desk, called: Called) -> None:
    output.say(f"If {called.code} were called back today: {desk.shown(called.grams)} in")
    output.say(
        f"{format_number(called.lots)} lots; {desk.shown(called.here_g)} are here, "
        f"{desk.shown(called.sent_g)} are with {format_number(called.customers)} customers"
        f"{f' ({format_number(called.jars)} jars)' if called.jars else ''}."
    )
    output.say(WIDER)


def _show_tied(desk: Desk, tied: Tied | None) -> None:
    if tied is None:
        output.say(NOBODY_KNOWS)
        return
    output.say(
        f"Together {desk.shown(tied.grams)} of {format_number(tied.sources)} sources. If the "
        f"worst of them, {tied.name}, were called back:"
    )
    output.say(
        f"{desk.shown(tied.back_g)}, {format_number(tied.jars)} jars and "
        f"{format_number(tied.customers)} customers; {desk.shown(tied.more_g)} only by mixing."
    )
    output.say(WIDER)


def _show(desk: Desk, whole: Exposure) -> None:
    output.say(f"Recall to expect, were one source bad: {desk.shown(whole.expected_g)}.")
    output.table(
        [Column("source"), Column("here", right=True), Column("sent", right=True)],
        [
            [row.name, desk.shown(row.here_g), desk.shown(row.sent_g)]
            for row in whole.sources[:MOST_ROWS]
        ],
    )
    for title, ties in (("heels of", whole.heels), ("mixed in", whole.mixes)):
        if ties:
            output.say()
            output.table(
                [
                    Column(title),
                    Column("sources", right=True),
                    Column("behind it", right=True),
                    Column("ties", right=True),
                ],
                _ties(desk, ties),
            )
    output.say()
    for wash in whole.washes[:3]:
        output.say(
            f"A wash of {wash.name} tonight takes {desk.shown(wash.saves_g)} off: "
            f"{format_number(wash.sources)} sources cling to its next fill."
        )
    output.say(ESTIMATE)


def _ties(desk: Desk, ties: Sequence[Tie]) -> list[list[str]]:
    return [
        [
            tie.name if tie.kind == "heel" else f"{tie.code} ({tie.name})",
            format_number(tie.sources),
            desk.shown(tie.grams),
            desk.shown(tie.saves_g),
        ]
        for tie in ties[:MOST_ROWS]
    ]
