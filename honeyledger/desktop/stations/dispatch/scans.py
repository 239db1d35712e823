"""Scans of what goes, one after another, however fast the scanner is."""

from collections.abc import Callable

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.stations.dispatch.note_presenter import PREVIEW
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.places import FARM_GATE
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.services.dispatching import Pick, pick_of


class Scans:
    """Looks up each scan in the read lane, in the order they came.

    Args:
        found: what to do with what was found.
        refused: what to do with the refusal of what may not go.
    """

    def __init__(
        self,
        desk: Desk,
        found: Callable[[Pick], object],
        refused: Callable[[Refusal], object],
    ) -> None:
        self._desk, self._found, self._refused = desk, found, refused
        self._waiting: list[str] = []
        self._is_asking = False
        self._is_held = False

    def add(self, text: str) -> None:
        """A code was scanned or typed."""
        self._waiting.append(text)
        self._next()

    def hold(self, held: bool) -> None:
        """Let scans wait while a note is recorded: they are of the next one."""
        self._is_held = held
        self._next()

    def _next(self) -> None:
        if self._is_asking or self._is_held or not self._waiting:
            return
        self._is_asking = True
        text, house = self._waiting.pop(0), self._desk.house

        def task() -> Pick | None:
            found = house.ask(lambda view: pick_of(view, text))
            code = found.row.code if found else text
            # Whatever else stands against it, the ledger says in its own words.
            house.preview(Dispatch(FARM_GATE, (DispatchLine(code),)), PREVIEW)
            return found

        self._desk.jobs.read(task, self._answered)

    def _answered(self, outcome: Outcome[Pick | None]) -> None:
        self._is_asking = False
        if outcome.value is None:
            self._refused(refusal_of(outcome))
        else:
            self._found(outcome.value)
        self._next()
