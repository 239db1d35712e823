"""Commands of checks on a schedule: what is due, what was found, what used the equipment since."""

from collections.abc import Sequence
from dataclasses import replace

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.checks import ListedCheck, check_named, every_words
from honeyledger.domain.moments import format_iso, format_moment, say_day
from honeyledger.exchange.checks import shipped_checks
from honeyledger.ledger.verbs.checks import RESULTS, Check
from honeyledger.services import checks_used
from honeyledger.services.checks import CheckRow, checks_page, house_checks
from honeyledger.services.store import View

FOLLOW = "Intervals are common practice where no source is named: follow your own plan and code."


@click.command(cls=Recording)
@click.argument("equipment")
@click.argument("what", required=False, default="")
@click.option("--result", default=RESULTS[0], help="ok or off.")
@click.option("--value", default="", help="What it showed.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.option("--of", "listed", default="", metavar="CHECK", help="Which of the house's checks.")
@click.option("--since", metavar="TIME", help="Found off: since when; else since last right.")
@click.option("--hold", is_flag=True, help="Found off: hold all that used it since.")
@click.pass_obj
def check(
    desk: Desk,
    /,
    equipment: str,
    what: str,
    since: str | None,
    **more: str | bool,
) -> None:
    """Equipment was checked: a scale, a refractometer, a sieve, a magnet.

    A check of the house's list that is of no equipment is named in its place, such as pests.

    \b
    Example: honeyledger check "Drum scale" "20 kg" --value "20.0 kg"
    Example: honeyledger check "Sump sieve" --of sieve --result off --since 07:00 --hold
    Undo: reverse the entry.
    """
    hold, listed = bool(more.pop("hold")), str(more.pop("listed"))
    facts = Check(
        equipment, what, since_ms=0 if since is None else desk.moment_ms(since),
        **{name: str(value) for name, value in more.items()},
    )  # fmt: skip
    facts = desk.ask(lambda view: _meant(view, facts, listed))
    if not hold:
        desk.record(facts)
        return
    happened = desk.said().happened
    until_ms = happened.at_ms if happened else desk.house.clock()
    desk.record(facts, desk.ask(lambda view: checks_used.hold_of(view, facts, until_ms)))


def _meant(view: View, facts: Check, listed: str) -> Check:
    """The check with which one of the house's list it is, where one is named."""
    checks = house_checks(view, _shipped())
    if listed:
        meant = check_named(checks, listed)
        return replace(facts, listed=meant.key, what=facts.what or meant.name)
    wanted = facts.equipment.strip().casefold()
    for one in checks:
        if not one.sort and wanted in (one.key, one.name.casefold()):
            return replace(facts, equipment="", listed=one.key, what=facts.what or one.name)
    return facts


def _shipped() -> tuple[ListedCheck, ...]:
    return shipped_checks(resource("checks"))


@click.command(cls=Asking)
@click.option("--all", "everything", is_flag=True, help="Those that are in order, too.")
@click.pass_obj
def checks(desk: Desk, everything: bool) -> None:
    """List the checks that are due, overdue, or were found off.

    \b
    Example: honeyledger checks
    """
    now_ms = desk.house.clock()
    page = desk.ask(lambda view: checks_page(view, now_ms, _shipped()))
    rows = [row for row in page.rows if everything or row.state.needs_a_person]
    desk.answer_rows(
        {"checks": [_json(row) for row in rows], "in_order": len(page.rows) - page.waiting},
        (
            *(Column("state"), Column("check"), Column("of")),
            *(Column("last made"), Column("due"), Column("how often")),
        ),
        [_row(row) for row in rows],
        "Every check is in order.",
    )
    if rows and not desk.as_json:
        say(FOLLOW)


def _json(row: CheckRow) -> dict[str, object]:
    return {
        "check": row.check.key,
        "name": row.check.name,
        "equipment": row.equipment,
        "state": row.state.value,
        "last": row.last_day,
        "due": row.due.isoformat() if row.due else "",
        "result": row.result,
        "by": row.by,
        "source": row.check.source,
    }


def _row(row: CheckRow) -> list[str]:
    due = say_day(row.due.isoformat()) if row.due else ""
    return [
        *(row.state.value, row.check.name, row.name, say_day(row.last_day), due),
        every_words(row.check.every),
    ]


@click.command("used-since", cls=Asking)
@click.argument("equipment")
@click.option("--since", metavar="TIME", help="Since when; else since it was last found right.")
@click.option("--of", "listed", default="", metavar="CHECK", help="By which check of the house.")
@click.pass_obj
def used_since(desk: Desk, equipment: str, since: str | None, listed: str) -> None:
    """List the runs, drums and jars that used a piece of equipment.

    \b
    Example: honeyledger used-since "Sump sieve" --since "24 Jul 2026 07:00"
    """
    since_ms = 0 if since is None else desk.moment_ms(since)
    now_ms = desk.house.clock()

    def found(view: View) -> checks_used.Used:
        facts = _meant(view, Check(equipment, "", "off", since_ms=since_ms), listed)
        return checks_used.used_since(view, facts, now_ms)

    used = desk.ask(found)
    value = {
        "name": used.name,
        "since": format_iso(used.since) if used.since else "",
        "runs": list(used.runs),
        "lots": [
            {"code": row.code, "noun": row.noun, "jars": list(row.jars), "held": row.held}
            for row in used.rows
        ],
    }
    desk.answer(value, lambda: _show_used(used))


def _show_used(used: checks_used.Used) -> None:
    since = format_moment(used.since) if used.since else "it came into use"
    runs = f"; runs {', '.join(used.runs)}" if used.runs else ""
    if not used.rows:
        say(f"Nothing used {used.name} since {since}.")
        return
    say(f"Used {used.name} since {since}{runs}:")
    columns: Sequence[Column] = (Column("lot"), Column("what"), Column("jars"), Column("state"))
    held = {True: "on hold", False: ""}
    table(columns, [[row.code, row.noun, row.jars_text, held[row.held]] for row in used.rows])
    if used.is_wide:
        say(f"Nobody has said what {used.name} is part of: all that was made since is listed.")
