"""Which run an entry is of: as it was said, else the one that is open on its vessels.

A run is a label on a stretch of entries. Whoever forgets to name it, with one run open there,
means that one; with several open they are asked. What was left out is put in by amending.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.mixing import fed_by
from honeyledger.ledger.places import VESSEL, class_of, key_of, place
from honeyledger.ledger.state import Mark, State

RUN_CLOSED = Sentence(
    "run-closed", "{run} is closed. Open a new run, or correct the entry that is wrong."
)
RUN_UNKNOWN = Sentence("run-unknown", "{run} is not a run of this house. Open a run first.")
WHICH_RUN = Sentence(
    "which-run", "More than one run is open here: {runs}. Say which it is of, or none."
)
OF_OPEN_RUN = Sentence(
    "of-open-run",
    "Nobody named a run: it is in {run}, the one that is open here. If it is of no run, reverse "
    "it and say none.",
)
LEFT_OUT = Sentence(
    "left-out-of-run",
    "Not in {run}, though its vessels had them while it was open: entry {entries}. Amend each "
    "that is of this run.",
)
ALSO = "also/"  # a mark on a run, for each entry that was put into it by an amendment
ENTRY, PUT_IN = "entry", "put into"  # the same, a mark on the entry
MAY_BE_OF_RUN = (
    "load",
    "fill",
    "cappings",
    "skim",
    "wet out",
    "dry",
    "blend",
    "melt",
    "cut",
)


def check_run_open(b: Booking) -> None:
    """The entry's run, if it names one, exists and is not closed."""
    run = b.act.run
    if not run:
        return
    if b.state.mark(place("run", run), "opened") is None:
        raise Refusal(RUN_UNKNOWN, field="run", run=run)
    if is_closed(b.state, run):
        raise Refusal(RUN_CLOSED, field="run", run=run)


def is_closed(state: State, run: str) -> bool:
    """Whether a run is settled and signed."""
    return state.mark(place("run", run), "closed") is not None


def of_run(b: Booking, *places: str, asks: bool = True) -> None:
    """The entry is of the run it names; else of the one that is open on one of these places.

    Args:
        asks: with several open, somebody has to say which; else it stays in none.

    Raises:
        Refusal: the run named is not open, or several are open and none is named.
    """
    check_run_open(b)
    vessels = {where for where in places if where and class_of(where) == VESSEL}
    if not vessels or b.act.run or b.outside_runs:
        return
    lines = {line for vessel in vessels for line in fed_by(b.state, vessel)}
    runs = open_runs(b)
    _take(b, [run for run in runs if vessels_of(runs[run]) & (vessels | lines)], asks=asks)


def of_run_of_pull(b: Booking, pull: int | None) -> None:
    """Empties are of the run named; else of the open one that their pull was loaded in."""
    check_run_open(b)
    if b.act.run or b.outside_runs:
        return
    runs = list(open_runs(b))
    if pull is not None:
        runs = [run for run in runs if pull in loaded_in(b.state, run)]
    _take(b, runs, asks=True)


def _take(b: Booking, runs: Sequence[str], *, asks: bool) -> None:
    if len(runs) == 1:
        b.act = replace(b.act, run=runs[0])
        b.note(OF_OPEN_RUN, run=runs[0])
    elif runs and asks:
        raise Refusal(WHICH_RUN, field="run", offers=runs, runs=", ".join(runs))


def open_runs(b: Booking) -> dict[str, Mark]:
    """The runs that are open when the entry happens, with how each was opened."""
    closed = {mark.subject for mark in b.state.marked("closed", "run/")}
    return {
        key_of(mark.subject): mark
        for mark in b.state.marked("opened", "run/")
        if mark.subject not in closed and mark.at_ms <= b.at_ms + b.act.unsure_ms
    }


def vessels_of(opened: Mark) -> set[str]:
    """A run's vessels, as they were when it was opened: its line, and what the line feeds."""
    assert isinstance(opened.value, Mapping)
    rows = opened.value.get("heels", ())
    assert isinstance(rows, Sequence)
    return {place(VESSEL, str(row[0])) for row in rows if isinstance(row, Sequence)}


def entries_in(state: State, run: str) -> list[Entry]:
    """The entries of a run that count, by id: those that carry its code, and those put in."""
    entries = {entry.id: entry for entry in state.entries_of_run(run)}
    for mark in state.marks(place("run", run)):
        if mark.name.startswith(ALSO):
            entry = state.entry(int(mark.name.removeprefix(ALSO)))
            if entry is not None and not state.reversed_by(entry.id):
                entries[entry.id] = entry
    return [entries[one] for one in sorted(entries)]


def put_in_by(state: State, run: str) -> set[int]:
    """The amendments that put entries into a run."""
    marks = state.marks(place("run", run))
    return {mark.entry for mark in marks if mark.name.startswith(ALSO)}


def loaded_in(state: State, run: str) -> set[int]:
    """The pulls loaded in a run; none in no run."""
    if not run:
        return set()
    loads = [entry for entry in entries_in(state, run) if entry.kind == "load"]
    return {row.lot for entry in loads for row in entry.postings if row.grams < 0}


def note_left_out(b: Booking, known: Iterable[Entry]) -> None:
    """Say what went into the run's vessels or out of them since its opening, and is in no run."""
    opened = b.state.mark(place("run", b.act.run), "opened")
    assert opened is not None
    ids: set[int] = set()
    for vessel in sorted(vessels_of(opened)):
        for event in (
            *b.state.arrivals(vessel, opened.at_ms),
            *b.state.draws(vessel, opened.at_ms),
        ):
            if event.at_ms <= b.at_ms:
                ids.add(event.entry)
    entries = [b.state.entry(one) for one in sorted(ids - {entry.id for entry in known})]
    left = [
        str(entry.id)
        for entry in entries
        if entry is not None and entry.kind in MAY_BE_OF_RUN and not run_of(b.state, entry)
    ]
    if left:
        b.note(LEFT_OUT, run=b.act.run, entries=", ".join(left))


def run_of(state: State, entry: Entry) -> str:
    """The run an entry carries, or was put into; "" where it is in none."""
    if entry.act.run:
        return entry.act.run
    mark = state.mark(place(ENTRY, str(entry.id)), PUT_IN)
    return str(mark.value) if mark else ""


def put_in(b: Booking, entry: Entry, run: str) -> None:
    """From now on the entry counts as one of the run's."""
    b.mark(place("run", run), f"{ALSO}{entry.id}", 1)
    b.mark(place(ENTRY, str(entry.id)), PUT_IN, run)
