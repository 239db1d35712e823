"""A laboratory's table of results: a row a sample or lot, a column a quantity; all of it, or none.

A file taken in twice writes once; of a file that has grown, only what is new is written.
"""

from dataclasses import replace
from pathlib import Path

from honeyledger.domain.quantities import IN_PARTS, QUANTITIES, quantity, reported
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.exchange.delimited import Column, Row, Sheet, read_sheet
from honeyledger.exchange.imports import ImportResult, setting_of
from honeyledger.exchange.mapping import Reader, Setting, day, words
from honeyledger.ledger.booking import as_json
from honeyledger.ledger.canonical import digest_of, text_of
from honeyledger.ledger.verbs.measuring import Measure, Reported
from honeyledger.services.house import House, Said
from honeyledger.services.store import View

NO_RESULTS = Sentence(
    "no-results-in-row", "no result stands in this row. Fill one in, or drop it."
)
NOBODY = Said()
MEASURED = tuple(name for name in QUANTITIES if name != "temperature")
_COMMAND = "import-results-"


def result_columns(setting: Setting) -> tuple[Column, ...]:
    """The columns of a laboratory's table: the lot or sample, its papers, and any quantity."""
    return (
        Column("lot", ("lot", "sample", "code"), words, needed=True),
        Column("laboratory", ("laboratory", "lab"), words),
        Column("report", ("report", "report number"), words),
        Column("sampled", ("sampled", "sampled on"), day(setting)),
        *(Column(_key(name), (name,), _reads(name)) for name in MEASURED),
    )


def import_results(house: House, path: Path, said: Said = NOBODY) -> ImportResult:
    """Keep the results of a file, as they were reported.

    Raises:
        Refusal: nothing was written; every bad cell is named.
    """
    setting = house.ask(lambda view: setting_of(view, house.clock()))
    sheet = read_sheet(path, result_columns(setting))
    facts = [(row, _facts(row)) for row in sheet.rows]
    for row, one in facts:
        _try(house, sheet, row, one)
    sheet.check()
    if not facts:
        text = f"{sheet.file} has no rows under its first one: nothing was written."
        return ImportResult(sheet.file, 0, None, False, text)
    written, undone = house.ask(_known)
    new = [one for _, one in facts if _content(one) not in written]
    recorded = None
    if new:
        again = [undone.get(_content(one), 0) for one in new]
        digest = digest_of(text_of([[as_json(one) for one in new], again]))
        recorded = house.record_all(new, replace(said, command=f"{_COMMAND}{digest[:40]}"))
    before = len(facts) - len(new)
    rows = "1 row" if len(new) == 1 else f"{len(new)} rows"
    text = f"{sheet.file}: the results of {rows} were kept"
    text += f"; {before} taken in before." if before else "."
    return ImportResult(sheet.file, len(sheet.rows), recorded, not new, text)


def _content(facts: Measure) -> str:
    return text_of(as_json(facts))


def _key(name: str) -> str:
    return name.replace(" ", "_")


def _reads(name: str) -> Reader:
    """Checks a cell and keeps it as it stands: what it means is for the ledger."""
    of = quantity(name)

    def read(text: str, _unit: str) -> str:
        reported(of, text, field=name)
        return text.strip()

    return read


def _facts(row: Row) -> Measure:
    sampled = row["sampled"]
    results = tuple(Reported(name, text) for name in MEASURED if (text := row.text(_key(name))))
    return Measure(
        row.text("lot"),
        results=results,
        laboratory=row.text("laboratory"),
        report=row.text("report"),
        sampled=sampled.isoformat() if sampled else "",
    )


def _try(house: House, sheet: Sheet, row: Row, facts: Measure) -> None:
    """Book a row on trial, so that what the ledger refuses is named by its row."""
    if any(problem.facts.get("row") == row.number for problem in sheet.problems):
        return  # what is wrong with it is said already
    if not facts.results:
        sheet.problem(row.number, "lot", row.text("lot"), Refusal(NO_RESULTS))
        return
    try:
        house.preview(facts, Said())
    except Refusal as refusal:
        name = refusal.field if refusal.field in IN_PARTS else "lot"
        sheet.problem(row.number, name, row.text(name), refusal)


def _known(view: View) -> tuple[set[str], dict[str, int]]:
    """What rows of such files are written, and those whose entry was reversed: they may come in
    again."""
    entries = view.entries(("measure", "reverse"))
    reversed_ = {entry.reverses for entry in entries if entry.reverses}
    written: set[str] = set()
    undone: dict[str, int] = {}
    for entry in entries:
        if not entry.act.command.startswith(_COMMAND):
            continue
        content = text_of(entry.facts["said"])
        if entry.id in reversed_:
            undone[content] = entry.id
        else:
            written.add(content)
    return written, undone
