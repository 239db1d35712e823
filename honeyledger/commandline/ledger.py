"""Commands about the house itself: make one, look at its entries, check its ledger."""

from collections.abc import Sequence
from dataclasses import replace

import click

from honeyledger.commandline import output, progress
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_iso, format_moment, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_count
from honeyledger.ledger.entry import Entry
from honeyledger.services.house import given_codes, notes_of
from honeyledger.services.setup import new_house
from honeyledger.services.store import Finding, View

NOT_A_HEAD = Sentence(
    "not-a-head",
    "{text} is no head: type the digest, at least its first 8 characters, a colon and the "
    "entry's number, such as 3f9a0c1d:214.",
)


@click.command(cls=Recording)
@click.option("--name", default="Our House", help="What the house is called.")
@click.option(
    "--zone", default="", help="Its time zone, such as Europe/Berlin; else this computer's."
)
@click.option("--prefix", default="", help="Two or three letters in front of every code.")
@click.pass_obj
def new(desk: Desk, name: str, zone: str, prefix: str) -> None:
    """Make a new, empty house.

    It stands where --house says, and begins with its own record and three usual boxes: medium,
    deep and shallow. Change them with `register box change`.

    \b
    Example: honeyledger --house mine.honeyledger new --name "Our honey house" --zone Europe/Berlin
    Undo: none needed: an empty house is a file that can be thrown away.
    """
    unit = desk.given.get("unit", "kg")
    zone = zone or desk.wiring.local_zone()
    facts = new_house(name, zone, prefix=prefix, unit="lb" if unit == "lb" else "kg")
    house = desk.make_house()
    said = desk.said()
    # The house's clock is not known before this entry, so it is said with it.
    happened = said.happened or moment_at(house.clock(), zone)
    recorded = house.record_all(facts, replace(said, happened=happened))
    head = desk.ask(lambda view: view.head())

    def show() -> None:
        output.say(f"Made the house {name} in {desk.house_name}.")
        output.say(
            "Next: honeyledger register yard add NAME, then honeyledger receive YARD COUNT."
        )

    answer = output.recorded_json(recorded, desk.digest_of(recorded))
    desk.answer({"house": desk.house_name, "ledger": head.ledger_id, **answer}, show)


@click.command(cls=Asking)
@click.option("--last", default="20", metavar="N", help="How many; 20 unless said.")
@click.option("--kind", "kinds", multiple=True, help="Only these, such as load or fill.")
@click.pass_obj
def entries(desk: Desk, last: str, kinds: Sequence[str]) -> None:
    """Show the newest entries.

    \b
    Example: honeyledger entries
    """
    number = parse_count(last, "a number of entries", least=1, field="last")

    def question(view: View) -> list[tuple[Entry, int]]:
        found = view.entries(kinds, last=number)
        return [(entry, view.reversed_by(entry.id)) for entry in reversed(found)]

    rows = desk.ask(question)
    desk.answer_rows(
        {"entries": [_entry_json(entry, by) for entry, by in rows]},
        (
            Column("entry", right=True),
            Column("happened"),
            Column("what"),
            Column("by"),
            Column("codes"),
            Column(""),
        ),
        [_entry_row(entry, by) for entry, by in rows],
        "There are no entries of that kind yet.",
    )


def _entry_row(entry: Entry, by: int) -> list[str]:
    state = f"reversed by {by}" if by else f"reverses {entry.reverses}" if entry.reverses else ""
    return [
        str(entry.id),
        format_moment(entry.act.happened),
        output.what_of(entry),
        entry.act.operator,
        " ".join(given_codes(entry)),
        state,
    ]


def _entry_json(entry: Entry, by: int) -> dict[str, object]:
    return {
        "entry": entry.id,
        "kind": entry.kind,
        "what": output.what_of(entry),
        "happened": format_iso(entry.act.happened),
        "recorded_ms": entry.recorded_ms,
        "operator": entry.act.operator,
        "station": entry.act.station,
        "run": entry.act.run,
        "codes": given_codes(entry),
        "notes": [text for _, text in notes_of(entry)],
        "reverses": entry.reverses,
        "reversed_by": by,
    }


@click.command(cls=Asking)
@click.option(
    "--head",
    "heads",
    multiple=True,
    metavar="DIGEST:ENTRY",
    help="A head kept elsewhere, such as on a paper; finds a cut tail.",
)
@click.pass_obj
def audit(desk: Desk, heads: Sequence[str]) -> int:
    """Check every invariant of the ledger.

    The exit code is 1 where one of them fails; the entries and tables at fault are named.

    \b
    Example: honeyledger audit
    """
    kept = [_kept(text) for text in heads]
    store = desk.house.store
    with progress.bar("checking entries") as step:
        findings = store.audit(step, kept)
    desk.warn()
    value = [
        {"name": one.name, "holds": one.holds, "broken": list(one.broken)} for one in findings
    ]
    desk.answer({"invariants": value}, lambda: _show_findings(findings))
    return int(not all(one.holds for one in findings))


def _kept(text: str) -> tuple[int, str]:
    """A head kept elsewhere: the entry, and the beginning of its digest."""
    digest, _, entry = text.strip().rpartition(":")
    digest = digest.casefold().removesuffix("...").removesuffix("…")
    if len(digest) < 8 or not set(digest) <= set("0123456789abcdef"):
        raise Refusal(NOT_A_HEAD, field="head", text=text)
    return parse_count(entry, "an entry's number", least=1, field="head"), digest


def _show_findings(findings: Sequence[Finding]) -> None:
    for one in findings:
        output.say(f"{'holds ' if one.holds else 'BROKEN'}  {one.name}")
        for broken in one.broken:
            output.say(f"          {broken}")
    failed = sum(not one.holds for one in findings)
    output.say()
    output.say(
        f"All {len(findings)} invariants hold."
        if not failed
        else f"{failed} of {len(findings)} invariants fail. Keep the house as it is, and compare "
        "with the last backup."
    )


@click.command(cls=Asking)
@click.argument("file")
@click.pass_obj
def backup(desk: Desk, file: str) -> None:
    """Copy the house into a file, while others work; the copy is checked.

    \b
    Example: honeyledger backup monday.honeyledger
    """
    made = desk.wiring.back_up(desk.where, file)
    value = {"house": desk.house_name, "file": file, "entry": made.entry, "digest": made.digest}
    desk.answer(
        value,
        lambda: output.say(
            f"Copied {desk.house_name} into {file}. Its head is {made.digest[:16]}:{made.entry}."
        ),
    )
