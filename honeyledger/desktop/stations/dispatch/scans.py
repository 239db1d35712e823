"""Scans of what goes, one after another, however fast the scanner is."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.stations.dispatch.note_presenter import PREVIEW
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.places import FARM_GATE
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.services.dispatching import Pick, pick_of

SOME_STAY = Sentence(
    "some-do-not-go", "{n} of {of} are not on the note: {codes}. The first of them: {why}"
)


@dataclass(slots=True)
class _Several:
    """Codes that were sent here together: how many are still to look up, and what was refused."""

    count: int
    left: int
    refused: list[tuple[str, Refusal]] = field(default_factory=list)

    def refusal(self) -> Refusal | None:
        """What is said once all were looked up: every code that stays, the first with its why."""
        if self.left or not self.refused:
            return None
        first = self.refused[0][1]
        if len(self.refused) == 1:
            return first
        codes = ", ".join(code for code, _ in self.refused)
        stay = len(self.refused)
        return Refusal(SOME_STAY, n=stay, of=self.count, codes=codes, why=refusal_words(first))


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
        self._waiting: list[tuple[str, _Several]] = []
        self._is_asking = False
        self._is_held = False

    def add(self, text: str) -> None:
        """A code was scanned or typed."""
        self.add_all([text])

    def add_all(self, texts: Sequence[str]) -> None:
        """Several codes are sent here together; what may not go of them is said at the end."""
        several = _Several(len(texts), len(texts))
        self._waiting += [(text, several) for text in texts]
        self._next()

    def hold(self, held: bool) -> None:
        """Let scans wait while a note is recorded: they are of the next one."""
        self._is_held = held
        self._next()

    def _next(self) -> None:
        if self._is_asking or self._is_held or not self._waiting:
            return
        self._is_asking = True
        (text, several), house = self._waiting.pop(0), self._desk.house

        def task() -> Pick | None:
            found = house.ask(lambda view: pick_of(view, text))
            code = found.row.code if found else text
            # Whatever else stands against it, the ledger says in its own words.
            house.preview(Dispatch(FARM_GATE, (DispatchLine(code),)), PREVIEW)
            return found

        self._desk.jobs.read(task, lambda outcome: self._answered(text, several, outcome))

    def _answered(self, text: str, several: _Several, outcome: Outcome[Pick | None]) -> None:
        self._is_asking = False
        several.left -= 1
        if outcome.value is None:
            several.refused.append((text, refusal_of(outcome)))
        else:
            self._found(outcome.value)
        if (refusal := several.refusal()) is not None:
            self._refused(refusal)
        self._next()
