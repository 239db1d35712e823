"""What the page of a residue knows: what was typed, and what it comes to in every lot."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.domain.moments import house_day, parse_day
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.services.residues import ResidueSpread, parse_level, residue_spread

MEASURED, ASSUMED = "measured", "assumed"


@dataclass(frozen=True, slots=True)
class Feared:
    """What is feared, as typed; the substance and whether it was measured are only words.

    Args:
        first_day, last_day: of a yard's pulls; all of them where empty.
    """

    code: str
    level: str
    limit: str = ""
    substance: str = ""
    how: str = MEASURED
    first_day: str = ""
    last_day: str = ""


class ResiduePresenter(QObject):
    """A residue carried forward from one code.

    What was reckoned last is reckoned again when something is recorded.

    Signals:
        shown: a `ResidueSpread` has come.
        refused: the `Refusal` it ended with; its field is one of the form.
    """

    shown = Signal(object)
    refused = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.feared: Feared | None = None
        self.found: ResidueSpread | None = None
        self._is_stale = False
        self.is_seen: Callable[[], bool] = lambda: True
        desk.refresh.watch(EVERYTHING, self._changed)

    @property
    def unit(self) -> MassUnit:
        """The unit of masses in this house."""
        return self._desk.unit

    def _changed(self) -> None:
        self._is_stale = True
        if self.is_seen():
            self.open()

    def open(self) -> None:
        """Somebody looks at it from now on: what stands there is reckoned anew, unless true."""
        if self._is_stale and self.feared is not None and self.found is not None:
            self.reckon(self.feared)

    def reckon(self, feared: Feared) -> None:
        """Ask what it comes to."""
        self.feared, self._is_stale = feared, False
        try:
            level = parse_level(feared.level, "level")
            limit = parse_level(feared.limit, "limit") if feared.limit.strip() else None
            days = (
                self._day(feared.first_day, "first_day"),
                self._day(feared.last_day, "last_day"),
            )
        except Refusal as refusal:
            self._refuse(refusal)
            return
        house, code = self._desk.house, feared.code.strip()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: residue_spread(view, code, level, limit, *days)),
            self._answered,
            about=(self, "residue"),
        )

    def _day(self, text: str, field: str) -> str:
        """A day as the ledger keeps it; "" where none was typed."""
        today = house_day(self._desk.house.clock(), self._desk.zone)
        return parse_day(text, today, field=field).isoformat() if text.strip() else ""

    def _answered(self, outcome: Outcome[ResidueSpread]) -> None:
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        self.found = outcome.value
        self.shown.emit(outcome.value)

    def _refuse(self, refusal: Refusal) -> None:
        self.found = None
        self.refused.emit(refusal)
