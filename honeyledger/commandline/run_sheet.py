"""A run's sheet and its close-out, as answers: what went in, what came out, how it adds up."""

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_moment, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_number, format_shares
from honeyledger.ledger.in_run import RUN_UNKNOWN
from honeyledger.ledger.lookup import read_code
from honeyledger.ledger.run_balance import RunBalance
from honeyledger.services.floor import RunSheet, recent_runs, run_sheet, runs
from honeyledger.services.house import Recorded
from honeyledger.services.store import View

SHIFT_MIN = 12 * 60
NO_RUNS = Sentence("no-runs", "No run was opened yet: open one on a line first.")


def show(desk: Desk, text: str) -> None:
    """Answer a run's sheet; the newest run's where none is named."""
    sheet = desk.ask(lambda view: sheet_of(view, text, desk.house.clock()))
    desk.answer(sheet_json(sheet), lambda: _show(desk, sheet))


def sheet_of(view: View, text: str, now_ms: int) -> RunSheet:
    """A run's sheet by its code; the newest run's where none is named.

    Raises:
        Refusal: there is no such run, or none at all.
    """
    if text:
        code = str(read_code(view, text, "run"))
    else:
        known = recent_runs(view, now_ms) or runs(view)
        if not known:
            raise Refusal(NO_RUNS, field="run")
        code = known[0].code
    sheet = run_sheet(view, code, now_ms)
    if sheet is None:
        raise Refusal(RUN_UNKNOWN, field="run", run=code)
    return sheet


def show_closed(desk: Desk, recorded: Recorded) -> None:
    """Answer what closing a run wrote, with the balance as signed."""
    run = recorded.entries[0].act.run
    now_ms = desk.house.clock()
    sheet = desk.ask(lambda view: sheet_of(view, run, now_ms))
    value = {
        **output.recorded_json(recorded, desk.digest_of(recorded)),
        "run": run,
        "balance": balance_json(sheet.balance),
    }

    def show_it() -> None:
        output.show_recorded(recorded, desk.shown)
        output.say(f"{run} is closed.")
        _show_balance(desk, sheet)

    desk.answer(value, show_it)


def balance_json(balance: RunBalance) -> dict[str, object]:
    """A run's balance for programs, grams."""
    return {
        "in_g": balance.in_g,
        "heel_in_g": balance.heel_in_g,
        "out_g": balance.out_g,
        "heel_out_g": balance.heel_out_g,
        "heel_known": balance.heel_known,
        "drums_g": sum(row.grams for row in balance.drums),
        "part_filled_g": balance.part_filled_g,
        "cappings_g": sum(row.grams for row in balance.barrels),
        "cappings_pending": balance.cappings_pending,
        "skimmed_g": balance.skimmed_g,
        "evaporated_g": balance.evaporated_g,
        "estimate_gap_g": balance.estimate_gap_g,
        "lost_g": balance.lost_g,
        "supers": balance.supers,
        "wet_out_supers": balance.wet_out_supers,
    }


def sheet_json(sheet: RunSheet) -> dict[str, object]:
    """A run's sheet for programs."""
    return {
        "run": sheet.run.code,
        "line": sheet.run.line,
        "line_name": sheet.run.line_name,
        "opened_ms": sheet.run.opened_ms,
        "closed_ms": sheet.run.closed_ms,
        "went_in": [
            {"code": row.code, "yard": row.yard, "supers": row.supers, "grams": row.grams}
            for row in sheet.went_in
        ],
        "came_out": [
            {"code": row.code, "kind": row.kind, "grams": row.grams, "pending": row.pending}
            for row in sheet.came_out
        ],
        "vessels": [
            {"code": row.code, "name": row.name, "grams": row.grams} for row in sheet.vessels
        ],
        "yards": [
            {
                "code": row.code,
                "name": row.name,
                "share": row.share,
                "only_through_heel": row.only_through_heel,
                "drums": row.drums,
                "other_drums": row.others,
            }
            for row in sheet.ties
        ],
        "balance": balance_json(sheet.balance),
        "usual_permille": sheet.usual_permille,
    }


def _went_in(sheet: RunSheet) -> str:
    """Every yard of a mixed run is a source of each of its drums."""
    yards = len({row.yard_name for row in sheet.went_in})
    if yards < 2:
        return "Went in"
    advice = ". Close it at a change of yard to keep them apart." * (sheet.run.closed_ms is None)
    return f"Went in: mixed run, {yards} yards{advice}"


def _show(desk: Desk, sheet: RunSheet) -> None:
    opened = format_moment(moment_at(sheet.run.opened_ms, desk.zone))
    closed = (
        f"closed {format_moment(moment_at(sheet.run.closed_ms, desk.zone))}"
        if sheet.run.closed_ms is not None
        else "open"
    )
    output.say(f"{sheet.run.code} on {sheet.run.line_name}, opened {opened}, {closed}")
    pace = sheet.pace
    speed = f", {pace.frames_an_hour} frames an hour" if pace.frames_an_hour else ""
    left_out = f", {pace.left_out_minutes} min without work left out" * bool(pace.left_out_minutes)
    left_out += f", stood {pace.stood_minutes} min" * bool(pace.stood_minutes)
    # Longer than a shift says nothing but what the line above says.
    took = f", {pace.minutes} min" * (pace.minutes <= SHIFT_MIN)
    output.say(f"{pace.supers} supers, {pace.frames} frames{took}{speed}{left_out}")
    output.say()
    output.say(_went_in(sheet))
    output.table(
        (
            Column("pull"),
            Column("yard"),
            Column("supers", right=True),
            Column("weight", right=True),
        ),
        [[r.code, r.yard_name, str(r.supers), f"≈ {desk.shown(r.grams)}"] for r in sheet.went_in],
    )
    output.say()
    output.say("Came out")
    output.table(
        (Column("code"), Column("container"), Column("weight", right=True), Column("")),
        [
            [r.code, r.container_name, desk.shown(r.grams), "to follow" if r.pending else ""]
            for r in sheet.came_out
        ],
    )
    output.say()
    _show_balance(desk, sheet)
    if sheet.ties:
        output.say()
        output.say("Recalling a yard of this run would recall")
        shares = format_shares([row.share for row in sheet.ties])
        output.table(
            (
                Column("yard"),
                Column("share", right=True),
                Column("drums here", right=True),
                Column("drums of other runs", right=True),
                Column(""),
            ),
            [
                [r.name, share, str(r.drums), str(r.others), _heel(r.only_through_heel)]
                for share, r in zip(shares, sheet.ties, strict=True)
            ],
        )


def _heel(only_through_heel: bool) -> str:
    return "only through a heel" if only_through_heel else ""


def _show_balance(desk: Desk, sheet: RunSheet) -> None:
    """The balance, line by line, and whether the gap is usual for this house."""
    balance = sheet.balance
    lines = [
        ("heel at the start", balance.heel_in_g),
        ("loaded, by estimate", balance.in_g - balance.heel_in_g),
        ("drums", -sum(row.grams for row in balance.drums)),
        ("in drums left open", -balance.part_filled_g),
        ("cappings", -sum(row.grams for row in balance.barrels)),
        ("foam", -balance.skimmed_g),
        ("water evaporated", -balance.evaporated_g),
        ("heel at the end", -balance.heel_out_g),
        ("lost between weighings", -balance.lost_g),
        ("estimates against scales", -balance.estimate_gap_g),
    ]
    shown = [(text, grams) for text, grams in lines if grams]
    output.table(
        (Column("balance"), Column("weight", right=True)),
        [
            *([text, desk.shown(grams)] for text, grams in shown),
            ["adds up to", desk.shown(sum(grams for _, grams in lines))],
        ],
    )
    if not balance.heel_known:
        output.say("The heel is not known yet: give it when closing the run.")
    if balance.cappings_pending:
        output.say("The cappings are not weighed yet.")
    if balance.in_g:
        permille = abs(balance.estimate_gap_g) * 1000 // balance.in_g
        usual = format_number(sheet.usual_permille, 0)
        verdict = "as usual" if permille <= 2 * sheet.usual_permille else "more than usual"
        output.say(
            f"Estimates were off by {permille / 10:.1f} %, {verdict} here "
            f"(usual {int(usual) / 10:.1f} %)."
        )
