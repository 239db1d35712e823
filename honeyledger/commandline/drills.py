"""A recall rehearsed on the terminal: a jar is drawn, the clock runs, what was found is kept."""

import random
import time
from dataclasses import asdict

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_day, format_moment
from honeyledger.domain.units import format_number, format_share
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.verbs.recalls import DRILL, CloseRecall, OpenRecall
from honeyledger.services.drills import Drill, draw, drill_due
from honeyledger.services.drills import drills as drill_rows
from honeyledger.services.recalls import recall_case
from honeyledger.services.tracing import trace_back

LARGEST = 1 << 30


@click.group(no_args_is_help=True)
def drill() -> None:
    """Rehearse a recall: back and forward from a jar, against the clock."""


@drill.command("start", cls=Recording)
@click.argument("code", required=False, default="")
@click.pass_obj
def start(desk: Desk, code: str) -> None:
    """Begin with a jar or lot, or with one drawn at random; nothing is held.

    \b
    Example: honeyledger drill start
    Undo: reverse the entry.
    """
    number = random.randrange(LARGEST)
    began = time.monotonic()
    lot = desk.ask(
        lambda view: find_lot(view, code, field="code").code if code else draw(view, number)
    )
    back = desk.ask(lambda view: trace_back(view, code or lot, ribbons=False))
    done = desk.house.record(
        OpenRecall(f"drill on {code or lot}", (lot,), sort=DRILL), desk.said()
    )
    case_code = done.given[0]
    now_ms = desk.house.clock()
    case = desk.ask(lambda view: recall_case(view, now_ms, case_code))
    seconds = time.monotonic() - began
    value = {
        "recall": case.code,
        "code": code or lot,
        "sources": len(back.ancestors),
        "lots": len(case.lots),
        "customers": len(case.consignees),
        "accounted": case.accounted,
        "seconds": round(seconds, 3),
    }

    def show() -> None:
        output.say(f"{case.code}: the drill is on {code or lot}. The clock runs.")
        output.say(
            f"Back to {format_number(len(back.ancestors))} sources, forward to "
            f"{format_number(len(case.lots))} lots and {format_number(len(case.consignees))} "
            f"customers, {format_share(case.accounted / 10_000)} accounted for, in "
            f"{seconds:.1f} s of the program's."
        )
        output.say("Find the lots, call the customers as if it were true, then end the drill.")

    desk.answer(value, show)


@drill.command("end", cls=Recording)
@click.argument("case")
@click.option("--by-hand", default="", help="What had to be looked up by hand; or nothing.")
@click.option("--note", default="", help="What to do better next time.")
@click.option("--second", default="", metavar="WHO", help="The second person, where two sign.")
@click.pass_obj
def end(desk: Desk, case: str, by_hand: str, note: str, second: str) -> None:
    """End a drill by name: the clock stops, and what had to be looked up by hand is kept.

    \b
    Example: honeyledger drill end Q26-0001-X --by-hand "phone numbers" --operator Ada
    Undo: reverse the entry.
    """
    desk.record(CloseRecall(case, by_hand, note, second=second))


@drill.command("list", cls=Asking)
@click.pass_obj
def list_drills(desk: Desk) -> None:
    """List all drills with their times, and when the next one is due.

    \b
    Example: honeyledger drill list
    """
    now_ms = desk.house.clock()
    rows = desk.ask(lambda view: drill_rows(view, now_ms))
    due = desk.ask(lambda view: drill_due(view, now_ms))
    value = {
        "drills": [asdict(row) for row in rows],
        "due": due.day.isoformat() if due.day else None,
        "is_due": due.is_due,
    }

    def show() -> None:
        if rows:
            output.table(COLUMNS, [_row(row) for row in rows])
        if due.day is not None:
            output.say(f"The next drill is due on {format_day(due.day)}.")
        elif due.is_due:
            output.say("No drill was ever ended here: one is due.")
        else:
            output.say("No drill was ever ended here.")

    desk.answer(value, show)


COLUMNS = (
    Column("case"),
    Column("begun"),
    Column("minutes", right=True),
    Column("lots", right=True),
    Column("customers", right=True),
    Column("accounted for", right=True),
    Column("about", wraps=True),
    Column("by hand", wraps=True),
)


def _row(row: Drill) -> list[str]:
    return [
        row.code,
        format_moment(row.opened),
        "runs" if row.minutes is None else format_number(row.minutes),
        format_number(row.lots),
        format_number(row.customers),
        format_share(row.accounted / 10_000),
        row.about,
        row.by_hand,
    ]
