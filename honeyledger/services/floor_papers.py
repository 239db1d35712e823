"""What the papers of the floor say: a run's sheet, and what should stand in a room or a row."""

from dataclasses import dataclass

from honeyledger.domain.moments import Moment, moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.in_run import RUN_UNKNOWN
from honeyledger.ledger.places import ROOM, place
from honeyledger.ledger.verbs.printing import prints_of
from honeyledger.ledger.whereabouts import find_spot
from honeyledger.services.floor import RunSheet, run_sheet
from honeyledger.services.holding import name_in
from honeyledger.services.labelling import head_text
from honeyledger.services.printed import RUN_SHEET, STANDING_LIST, printed_words
from honeyledger.services.rooms import StandsHere, stands_in
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class RunPaper:
    """A run's sheet as it is now, with what stands over it on paper.

    Args:
        signed_by: who closed the run; "" while it is open, or where nobody said.
        head: the ledger's head when it was made, as on all papers.
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, after the first.
    """

    house: str
    sheet: RunSheet
    opened: Moment
    closed: Moment | None
    signed_by: str
    head: str
    printed: str = ""
    again: int = 0


@dataclass(frozen=True, slots=True)
class StandingPaper:
    """What should stand in a room or a row, to be walked with.

    Args:
        row: "" for the whole room.
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, after the first.
    """

    house: str
    room: str
    row: str
    rows: tuple[StandsHere, ...]
    printed: str
    head: str
    again: int = 0


def run_paper(view: View, code: str, now_ms: int, operator: str = "") -> RunPaper:
    """A run's sheet for paper.

    Raises:
        Refusal: no such run.
    """
    sheet = run_sheet(view, code, now_ms)
    if sheet is None:
        raise Refusal(RUN_UNKNOWN, field="run", run=code)
    zone = rules_of(view).zone
    closed = view.mark(place("run", code), "closed")
    entry = view.entry(closed.entry) if closed else None
    signed_by = name_in(view, place("operator", entry.act.operator)) if entry else ""
    return RunPaper(
        house=name_in(view, "house", "Honey house"),
        sheet=sheet,
        opened=moment_at(sheet.run.opened_ms, zone),
        closed=None if sheet.run.closed_ms is None else moment_at(sheet.run.closed_ms, zone),
        signed_by=signed_by,
        head=head_text(view),
        printed=printed_words(view, now_ms, operator),
        again=prints_of(view, RUN_SHEET, sheet.run.code),
    )


def standing_paper(
    view: View, room: str, row: str, now_ms: int, operator: str = ""
) -> StandingPaper:
    """What should stand in a room or a row, for paper.

    Raises:
        Refusal: no such room.
    """
    rows = stands_in(view, room, row)
    spot = find_spot(view, room, row)
    name, spot_row = name_in(view, place(ROOM, spot["room"]), room), spot.get("row", "")
    return StandingPaper(
        house=name_in(view, "house", "Honey house"),
        room=name,
        row=spot_row,
        rows=rows,
        printed=printed_words(view, now_ms, operator),
        head=head_text(view),
        again=prints_of(view, STANDING_LIST, standing_of(name, spot_row)),
    )


def standing_of(room: str, row: str) -> str:
    """What the prints of a list of what should stand there are on record under."""
    return " ".join(part for part in (room, row) if part)
