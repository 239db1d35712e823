"""Recall cases on the terminal: open, tell, answer, close, show, list."""

import importlib
from collections.abc import Sequence
from dataclasses import asdict
from datetime import date

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_day, format_moment
from honeyledger.domain.units import format_number, format_share
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.services.recall_rows import Consignee, RecallCase
from honeyledger.services.recall_starts import called_by_supplier
from honeyledger.services.recalls import case_heads, recall_case
from honeyledger.services.through import through as through_place

PAPERS = "honeyledger.commandline.recall_papers"
CAUTION = (
    "Agree scope, class and wording with your authority; what may hurt someone is told at once."
)


@click.group(no_args_is_help=True)
def recall() -> None:
    """A recall from its first hour to its closing report."""


@recall.command("open", cls=Recording)
@click.argument("about")
@click.option("--lot", "lots", multiple=True, metavar="CODE", help="A lot or jar; once for each.")
@click.option("--their-lot", default="", metavar="LOT", help="A supplier's own lot number.")
@click.option("--yard", default="", metavar="NAME", help="A yard's pulls; with --from and --to.")
@click.option("--from", "first", metavar="DAY", help="Of a yard: pulls from this day on.")
@click.option("--to", "last", metavar="DAY", help="Of a yard: pulls up to this day.")
@click.option("--through", default="", metavar="PLACE", help="All that was in a vessel, sieve ...")
@click.option("--since", metavar="TIME", help="... from this time on,")
@click.option("--until", metavar="TIME", help="... up to this time; else now.")
@click.option("--found", default="", help="How and when it was found.")
@click.option("--risk", default="", help="What it may do to whom, and who judged it.")
@click.option("--as", "sort", default="recall", help="recall (unless said), withdrawal or drill.")
@click.pass_obj
def open_case(
    desk: Desk,
    about: str,
    lots: Sequence[str],
    their_lot: str,
    yard: str,
    first: str | None,
    last: str | None,
    through: str,
    since: str | None,
    until: str | None,
    found: str,
    risk: str,
    sort: str,
) -> None:
    """Open a case; all stock in its scope is held from now on, by one entry.

    A drill holds nothing. A supplier's lot number means all that came in under it.

    \b
    Example: honeyledger recall open "splinters of glass" --lot J26-0004-T
    Undo: reverse the entry, or close the case by name.
    """
    if their_lot:
        lots = [*lots, *desk.ask(lambda view: called_by_supplier(view, their_lot))]
    if through:
        span = (desk.moment_ms(since), desk.moment_ms(until))
        lots = [*lots, *desk.ask(lambda view: through_place(view, through, *span)).lots]
    desk.record(
        OpenRecall(
            about,
            tuple(lots),
            yard,
            desk.day(first, "first_day"),
            desk.day(last, "last_day"),
            found,
            risk,
            sort,
        )
    )


@recall.command("tell", cls=Recording)
@click.argument("case")
@click.argument("customers", nargs=-1, required=True)
@click.option("--how", default="", help="phone, letter, e-mail.")
@click.option("--whom", default="", help="Who there took it.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def tell(desk: Desk, case: str, customers: Sequence[str], how: str, whom: str, note: str) -> None:
    """Note customers as told.

    \b
    Example: honeyledger recall tell Q26-0001-X "Corvane Packing" --how phone
    Undo: reverse the entry.
    """
    desk.record(TellConsignees(case, tuple(customers), how, whom, note))


@recall.command("answer", cls=Recording)
@click.argument("case")
@click.argument("customer")
@click.option("--on-hand", metavar="WEIGHT", help="What they have on hand still.")
@click.option("--jars-on-hand", metavar="N", help="The same in jars.")
@click.option("--destroyed", metavar="WEIGHT", help="What they destroyed; with --proof.")
@click.option("--jars-destroyed", metavar="N", help="The same in jars.")
@click.option("--proof", default="", help="How it is proved.")
@click.option("--passed-on", default="", help="To whom they sent some on.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def answer(
    desk: Desk,
    case: str,
    customer: str,
    on_hand: str | None,
    jars_on_hand: str | None,
    destroyed: str | None,
    jars_destroyed: str | None,
    proof: str,
    passed_on: str,
    note: str,
) -> None:
    """Note what a customer answered; a later answer takes the place of an earlier one.

    \b
    Example: honeyledger recall answer Q26-0001-X "Corvane Packing" --on-hand 0
             --destroyed 290 --proof "two photographs"
    Undo: reverse the entry.
    """
    desk.record(
        AnswerRecall(
            case,
            customer,
            desk.mass(on_hand, "here_g"),
            desk.count(jars_on_hand, "jars", "here_jars"),
            desk.mass(destroyed, "destroyed_g") or 0,
            desk.count(jars_destroyed, "jars", "destroyed_jars") or 0,
            proof,
            passed_on,
            note,
        )
    )


@recall.command("close", cls=Recording)
@click.argument("case")
@click.option("--result", default="", help="What came of it, and what was done about the cause.")
@click.option("--disposal", default="", help="What became of the honey, with the proofs.")
@click.option("--despite", default="", help="Why a customer who was not told need not be.")
@click.option("--second", default="", metavar="WHO", help="The second person, where two sign.")
@click.pass_obj
def close(desk: Desk, case: str, result: str, disposal: str, despite: str, second: str) -> None:
    """Close a case by name; what it holds is free.

    \b
    Example: honeyledger recall close Q26-0001-X --result "sieve changed" --operator Ada
    Undo: reverse the entry.
    """
    desk.record(CloseRecall(case, result, disposal, despite, second))


@recall.command("list", cls=Asking)
@click.pass_obj
def list_cases(desk: Desk) -> None:
    """List all cases, the newest first.

    \b
    Example: honeyledger recall list
    """
    heads = desk.ask(case_heads)
    rows = [
        [
            head.code,
            format_moment(head.opened),
            head.sort,
            "closed" if head.is_closed else "open",
            f"{head.told} of {head.customers}",
            head.about,
        ]
        for head in heads
    ]
    columns = [Column("case"), Column("opened"), Column("as"), Column("state"), Column("told")]
    desk.answer_rows(
        {"recalls": [asdict(head) for head in heads]},
        (*columns, Column("about", wraps=True)),
        rows,
        "There is no recall, and no drill was made.",
    )


@recall.command("show", cls=Asking)
@click.argument("case")
@click.pass_obj
def show(desk: Desk, case: str) -> None:
    """Show a case: what is in scope and why, where it is, who has it, what is not accounted for.

    \b
    Example: honeyledger recall show Q26-0001-X
    """
    now_ms = desk.house.clock()
    found = desk.ask(lambda view: recall_case(view, now_ms, case))
    desk.answer(case_json(found), lambda: _show(desk, found))


@recall.command("report", cls=Recording)
@click.argument("case")
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE", help="FILE.pdf or FILE.csv."
)
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def report(desk: Desk, case: str, file: str, paper: str, copies: str) -> None:
    """Write the report of a case as it stands; as FILE.csv its lots as a table to sort.

    That it was printed is put on record: the second print says that it is reprint 1.

    \b
    Example: honeyledger recall report Q26-0001-X -o report.pdf
    Undo: throw the paper away and reverse the entry: no gram moves by it.
    """
    importlib.import_module(PAPERS).write(desk, case, (file, paper, copies), letters=False)


@recall.command("letters", cls=Recording)
@click.argument("case")
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE", help="FILE.pdf or FILE.csv."
)
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def letters(desk: Desk, case: str, file: str, paper: str, copies: str) -> None:
    """Write a letter with a slip for each customer; as FILE.csv a table for a mail merge.

    Agree the wording with your authority before any of them goes.

    \b
    Example: honeyledger recall letters Q26-0001-X -o letters.pdf
    Undo: throw the paper away and reverse the entry: no gram moves by it.
    """
    importlib.import_module(PAPERS).write(desk, case, (file, paper, copies), letters=True)


def case_json(case: RecallCase) -> dict[str, object]:
    """A case for programs: grams, hundredths of a percent, days as ISO."""
    value = asdict(case)
    value["today"] = case.today.isoformat()
    for made, lot in zip(value["lots"], case.lots, strict=True):
        made["why_text"] = str(lot.why_text)
    sums = ("here_g", "shipped_g", "missing_g", "whole_g", "accounted", "to_tell", "told")
    more = ("answered", "recovered_g", "sent_g")
    return {**value, "sums": {name: getattr(case, name) for name in (*sums, *more)}}


def _show(desk: Desk, case: RecallCase) -> None:
    state = "closed" if case.is_closed else "open"
    output.say(f"{case.code}, {case.sort}, {state}; opened {format_moment(case.opened)}")
    output.say(f"{case.about}. It stands on {case.stands_on}.")
    told = (("Found", case.found), ("Risk", case.risk), ("Result", case.result))
    for name, text in (*told, ("Became of it", case.disposal)):
        if text:
            output.say(f"{name}: {text}.")
    output.say(f"Comes from: {', '.join(case.upstream)}.")
    output.say()
    output.table(
        [
            Column("lot"),
            Column("what"),
            *(
                Column(name, right=True)
                for name in ("made", "here", "sent", "went on", "not found")
            ),
            Column("where"),
            Column("in it by", wraps=True),
        ],
        [
            [
                lot.code,
                lot.noun,
                *map(
                    desk.shown,
                    (lot.made_g, lot.here_g, lot.shipped_g, lot.went_on_g, lot.missing_g),
                ),
                lot.where,
                str(lot.why_text) or "itself",
            ]
            for lot in case.lots
        ],
    )
    for out in case.narrowed:
        output.say(f"Taken out by {out.by or 'nobody named'}: {out.code}, {out.reason}.")
    output.say()
    _show_consignees(desk, case.consignees)
    output.say()
    output.say(
        f"Here {desk.shown(case.here_g)}, with customers {desk.shown(case.shipped_g)}, "
        f"not accounted for {desk.shown(case.missing_g)}: "
        f"{format_share(case.accounted / 10_000)} accounted for."
    )
    missing = 10_000 - case.accounted
    if missing >= case.explain_from:
        output.say("5 % or more is missing: explain it in writing.")
    elif missing >= case.warn_from:
        output.say("2 % or more is missing: look for it.")
    if case.to_tell:
        output.say(
            f"Told {case.told} of {case.to_tell}, answered {case.answered}; of "
            f"{desk.shown(case.sent_g)} sent {desk.shown(case.recovered_g)} came back or were "
            "destroyed."
        )
    output.say(CAUTION)


def _show_consignees(desk: Desk, rows: Sequence[Consignee]) -> None:
    if not rows:
        output.say("No customer has any of it, as far as the books know.")
        return
    output.table(
        [
            Column("who"),
            *(Column(name, right=True) for name in ("has", "jars", "came back", "open")),
            Column("told"),
            Column("papers", wraps=True),
        ],
        [
            [
                one.name,
                desk.shown(one.has_g),
                format_number(one.has_pieces),
                desk.shown(one.back_g),
                desk.shown(one.open_g),
                f"{format_moment(one.told[-1].at)}, {one.told[-1].how}" if one.told else "not yet",
                ", ".join(f"{code} {_day(day)}" for code, day in one.notes),
            ]
            for one in rows
        ],
    )


def _day(day: str) -> str:
    return format_day(date.fromisoformat(day))
