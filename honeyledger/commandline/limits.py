"""What a market or grade asks of honey, and what results say to it."""

from collections.abc import Collection, Sequence
from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.results import Result, parse_result
from honeyledger.domain.standards import Judged, Standard, Verdict, judged, named
from honeyledger.exchange.standards import shipped
from honeyledger.ledger.lookup import find_lot
from honeyledger.services.verdicts import results_of, with_house_rules

NO_SUCH_PROPERTY = Sentence(
    "no-such-property", "{standard} asks nothing of {name}: choose of {names}."
)
TEXT_IN_FORCE = "What counts is the text in force where the honey is sold."


@click.command(cls=Asking)
@click.argument("standard", required=False, default="")
@click.argument("results", nargs=-1, metavar="[PROPERTY=RESULT]...")
@click.option("--kind", "kinds", multiple=True, help="A kind of honey it is; may be repeated.")
@click.option("--lot", metavar="CODE", help="Take what is on record of this lot.")
@click.option("--own", metavar="FILE", help="The house's own rules, in the same form.")
@click.pass_obj
def limits(
    desk: Desk,
    standard: str,
    results: Sequence[str],
    kinds: Sequence[str],
    lot: str | None,
    own: str | None,
) -> None:
    """Show what a market or grade asks of honey, and judge results by it.

    A result may be "<5", ">30" or "not detected". A figure that nobody has seen in its source is
    shown as unverified and decides nothing. Without a standard, those there are. With --lot, the
    house's own limits stand over those that come with the program.

    \b
    Example: honeyledger limits eu moisture=19.2 "hmf=<5" --kind blossom
    """
    standards = shipped(resource("standards"), Path(own) if own else None)
    if lot is not None:
        ours = standards
        standards = desk.ask(lambda view: with_house_rules(view, ours))
    if not standard:
        _list(desk, standards)
        return
    wanted = named(standards, standard)
    read = dict(_result(wanted, text) for text in results)
    together: frozenset[str] = frozenset()
    if lot is not None:
        on_record, together = desk.ask(
            lambda view: results_of(view, find_lot(view, lot, field="lot"))
        )
        together -= read.keys()
        read = {**on_record, **read}
    verdict = judged(wanted, read, kinds or None)
    desk.answer(_json(verdict, together), lambda: _show(verdict, together))


def _result(standard: Standard, text: str) -> tuple[str, Result]:
    name, _, result = text.partition("=")
    names = dict.fromkeys(rule.what for rule in standard.rules)
    name = name.strip().casefold()
    if name not in names:
        raise Refusal(
            NO_SUCH_PROPERTY,
            field="results",
            standard=standard.title,
            name=name,
            names=", ".join(names),
        )
    return name, parse_result(result, field=name)


def _list(desk: Desk, standards: Sequence[Standard]) -> None:
    desk.answer_rows(
        {"standards": [{"name": one.name, "title": one.title} for one in standards]},
        (Column("standard"), Column("title")),
        [[one.name, one.title] for one in standards],
        "There are no rules.",
    )


def _json(verdict: Verdict, together: Collection[str]) -> dict[str, object]:
    return {
        "standard": verdict.standard.name,
        "outcome": verdict.outcome.value,
        "unverified": verdict.unverified,
        "rows": [
            {
                "property": row.rule.what,
                "limit": row.rule.limit,
                "result": None if row.result is None else str(row.result),
                "together": row.rule.what in together,
                "outcome": row.outcome.value,
                "why": row.why.value,
                "mark": row.rule.mark.value,
                "source": row.rule.source,
                "as_of": row.rule.as_of,
            }
            for row in verdict.rows
        ],
    }


def _show(verdict: Verdict, together: Collection[str]) -> None:
    columns = (
        *(Column("property"), Column("limit"), Column("result", right=True)),
        Column("outcome"),
    )
    table(columns, [_row(row) for row in verdict.rows])
    if used := [row.rule.what for row in verdict.rows if row.rule.what in together]:
        say(f"By a composite of several lots, any one of which may be off it: {', '.join(used)}.")
    sources = dict.fromkeys(
        f"{row.rule.source}; {row.rule.as_of}" for row in verdict.rows if row.rule.mark.decides
    )
    for source in sources:
        say(f"Source: {source}.")
    say(f"{verdict.standard.title}: {_in_words(verdict)}. {TEXT_IN_FORCE}")


def _row(row: Judged) -> list[str]:
    result = "" if row.result is None else str(row.result)
    why = f": {row.why.value}" if row.why.value else ""
    return [row.rule.what, row.rule.limit, result, f"{row.outcome.value}{why}"]


def _in_words(verdict: Verdict) -> str:
    shown = f", {verdict.unverified} unverified" if verdict.unverified else ""
    return f"{verdict.outcome.value}{shown}"
