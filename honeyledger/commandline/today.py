"""What there is to do today, on the terminal and on paper."""

from dataclasses import asdict

import click

from honeyledger.assets import resource
from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing
from honeyledger.commandline.report import show_table, write_report
from honeyledger.exchange.checks import shipped_checks
from honeyledger.services.day_sheet import WHEN, DaySheet, day_sheet
from honeyledger.services.day_tables import day_report, day_table
from honeyledger.services.printed import DAY_SHEET


@click.command("today", cls=Printing)
@click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write the day's sheet there.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def today(desk: Desk, file: str | None, paper: str, copies: str) -> None:
    """Show what there is to do today, by station.

    Stacks too long in the hot room, drums to sample, holds to decide, orders and checks due, a
    drill due: all by what is recorded.

    \b
    Example: honeyledger today -o today.pdf
    """
    now_ms = desk.house.clock()
    shipped = shipped_checks(resource("checks"))
    sheet = desk.ask(lambda view: day_sheet(view, now_ms, shipped))
    if file is not None:
        named = (DAY_SHEET, sheet.day.isoformat())
        write_report(desk, day_report(sheet), named, (file, paper, copies))
        return
    desk.answer(_json(sheet), lambda: _show(sheet))


def _json(sheet: DaySheet) -> dict[str, object]:
    rows = [asdict(row) | {"when": str(WHEN[row.when])} for row in sheet.rows]
    return {"day": sheet.day.isoformat(), "overdue": sheet.overdue, "rows": rows}


def _show(sheet: DaySheet) -> None:
    show_table(day_table(sheet))
    if sheet.rows:
        output.say(f"{len(sheet.rows)} to do, {sheet.overdue} of them overdue.")
