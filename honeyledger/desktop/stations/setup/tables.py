"""A spreadsheet's table taken in from the window: in the write lane, all of it or none."""

from collections.abc import Callable, Mapping
from pathlib import Path

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.setup.deeds import RECEIPTS, RESULTS_READ
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.exchange.imports import ImportResult, import_receipts, import_yards
from honeyledger.exchange.results_import import import_results

NO_TABLE_NAMED = Sentence(
    "no-table-named", "Name the file of the table, or choose it: nothing was taken in."
)


def take_in(
    desk: Desk, typed: Mapping[str, str], then: Callable[[Outcome[ImportResult]], None]
) -> None:
    """Take the rows of the named file in; everyone is told of what is new."""
    name = typed.get("file", "").strip().strip('"')
    if not name:
        then(Outcome(error=Refusal(NO_TABLE_NAMED, field="file")))
        return
    reads = {RECEIPTS: import_receipts, RESULTS_READ: import_results}
    read = reads.get(typed.get("what", ""), import_yards)
    house, file, said = desk.house, Path(name).expanduser(), desk.said()

    def written(outcome: Outcome[ImportResult]) -> None:
        result = outcome.value
        if result is not None and result.recorded is not None:
            desk.newest = max(desk.newest, result.recorded.entries[-1].id)
            desk.refresh.broadcast(EVERYTHING)
        then(outcome)

    desk.jobs.write(lambda: read(house, file, said), written)


def problems_of(refusal: Refusal) -> list[Message]:
    """Each thing that is wrong with a file, by its row; nothing where there is only one."""
    problems = refusal.facts.get("problems", ())
    assert isinstance(problems, tuple)
    return [Message(Mark.REFUSED, refusal_words(one)) for one in problems]
