"""Which run an entry is of: as it was said, else the one that is open on its vessels.

A run is a label on a stretch of entries. Whoever forgets to name it, with one run open there,
means that one; with several open they are asked. What was left out is put in by amending.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import NO_RUN, Booking
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
STILL_OPEN = Sentence(
    "run-still-open",
    "{runs} is still open here: close it, or say of every entry which run it is of.",
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
WAS_OPEN = Sentence(
    "run-was-open",
    "{run} was open here then, and is signed by now: this is in none. If it is of that run, amend "
    "entry {entry} into it.",
)
ALSO = "also/"  # a mark on a run, for each entry that was put into it by an amendment
ENTRY, PUT_IN = "entry", "put into"  # the same, a mark on the entry; also that it is in none
OUTSIDE = "outside/"  # a mark on no run, for each skim and wet out that nobody named one for
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
    if not vessels or b.act.run or _is_in_none(b):
        return
    vessels |= {line for vessel in vessels for line in fed_by(b.state, vessel)}

    def here(runs: Mapping[str, Mark]) -> list[str]:
        return [run for run in runs if vessels_of(runs[run]) & vessels]

    runs = here(open_runs(b))
    if not runs:
        _note_signed(b, here(_signed_since(b)))
    _take(b, runs, asks=asks)


def note_still_open(b: Booking, vessels: Sequence[str]) -> None:
    """A run is opened while another is open on the same vessels: everything will ask which."""
    runs = open_runs(b)
    if open_here := [run for run in runs if vessels_of(runs[run]) & set(vessels)]:
        b.note(STILL_OPEN, runs=" and ".join(open_here))


def _is_in_none(b: Booking) -> bool:
    """Whether it was said to be in none: closing a run does not ask about it again."""
    if b.outside_runs:
        b.mark(place(ENTRY, str(b.entry_id)), PUT_IN, NO_RUN)
    return b.outside_runs


def of_run_of_pull(b: Booking, pull: int | None) -> None:
    """Empties are of the run named; else of the open one that their pull was loaded in."""
    check_run_open(b)
    if b.act.run or _is_in_none(b):
        return
    runs = list(open_runs(b))
    if pull is not None:
        runs = [run for run in runs if pull in loaded_in(b.state, run)]
    if not runs:
        signed = [
            run for run in _signed_since(b) if pull is None or pull in loaded_in(b.state, run)
        ]
        _note_signed(b, signed)
    _take(b, runs, asks=True)


def _note_signed(b: Booking, signed: Sequence[str]) -> None:
    if signed:
        b.note(WAS_OPEN, run=" or ".join(signed), entry=b.entry_id)


def _take(b: Booking, runs: Sequence[str], *, asks: bool) -> None:
    if len(runs) == 1:
        b.act = replace(b.act, run=runs[0])
        b.note(OF_OPEN_RUN, run=runs[0])
    elif runs and asks:
        raise Refusal(WHICH_RUN, field="run", offers=runs, runs=", ".join(runs))


def open_runs(b: Booking) -> dict[str, Mark]:
    """The runs that are open when the entry happens, with how each was opened."""
    return {
        key_of(mark.subject): mark
        for mark in b.state.marked_without("opened", "closed", "run/")
        if mark.at_ms <= b.at_ms + b.act.unsure_ms
    }


def _signed_since(b: Booking) -> dict[str, Mark]:
    """The runs that were open when the entry happened and are signed by now: their opening."""
    if b.at_ms >= b.recorded_ms:
        return {}  # written down as it happened: no run was signed since
    found = {}
    for closed in b.state.marked("closed", "run/"):
        opened = b.state.mark(closed.subject, "opened") if b.at_ms <= closed.at_ms else None
        if opened is not None and opened.at_ms <= b.at_ms:
            found[key_of(closed.subject)] = opened
    return found


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
    ids = _on_since(b, vessels_of(opened), opened.at_ms) - {entry.id for entry in known}
    entries = [b.state.entry(one) for one in sorted(ids)]
    left = [
        str(entry.id)
        for entry in entries
        if entry is not None and entry.kind in MAY_BE_OF_RUN and not _is_placed(b.state, entry)
    ]
    if left:
        b.note(LEFT_OUT, run=b.act.run, entries=", ".join(left))


def stood_in(b: Booking, vessels: Sequence[str]) -> dict[str, int]:
    """What vessels held when a run is opened, grams: of one opened late, not what came since."""
    held = {vessel: b.grams_at(vessel) for vessel in vessels}
    if b.at_ms >= b.recorded_ms:
        return held
    for one in _on_since(b, vessels, b.at_ms, until_ms=b.recorded_ms):
        entry = b.state.entry(one)
        for row in entry.postings if entry else ():
            if row.place in held:
                held[row.place] -= row.grams
    return {vessel: max(0, grams) for vessel, grams in held.items()}


def _on_since(
    b: Booking, vessels: Iterable[str], since_ms: int, until_ms: int | None = None
) -> set[int]:
    """The entries that put something into vessels or took it out, and empties of no run.

    Skims and empties are found where they are in no run: that is what they are asked for.
    """
    until_ms = b.at_ms if until_ms is None else until_ms
    found = [
        (event.entry, event.at_ms)
        for vessel in sorted(vessels)
        for event in (*b.state.arrivals(vessel, since_ms), *b.state.draws(vessel, since_ms))
    ]
    of_any = {"", *vessels}
    outside = b.state.marks(place("run", NO_RUN))
    found += [(mark.entry, mark.at_ms) for mark in outside if mark.value in of_any]
    return {entry for entry, at_ms in found if since_ms <= at_ms <= until_ms}


def note_outside(b: Booking, vessel: str = "") -> None:
    """A skim, or empties, that are in no run without anybody saying so: a closing finds them.

    Other entries are found by what they put into a vessel or drew from it.
    """
    if not b.act.run and not b.outside_runs:
        b.mark(place("run", NO_RUN), f"{OUTSIDE}{b.entry_id}", vessel)


def _is_placed(state: State, entry: Entry) -> bool:
    """Whether it is in a run, or was said to be in none."""
    return bool(entry.act.run) or state.mark(place(ENTRY, str(entry.id)), PUT_IN) is not None


def run_of(state: State, entry: Entry) -> str:
    """The run an entry carries, or was put into; "" where it is in none."""
    if entry.act.run:
        return entry.act.run
    mark = state.mark(place(ENTRY, str(entry.id)), PUT_IN)
    return str(mark.value) if mark and mark.value != NO_RUN else ""


def put_in(b: Booking, entry: Entry, run: str) -> None:
    """From now on the entry counts as one of the run's."""
    b.mark(place("run", run), f"{ALSO}{entry.id}", 1)
    b.mark(place(ENTRY, str(entry.id)), PUT_IN, run)
