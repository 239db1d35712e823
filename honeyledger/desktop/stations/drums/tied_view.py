"""What the drums scanned for a blend would tie together, asked beside the window as they come."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.stations.drums.blend_asks import BLEND
from honeyledger.desktop.stations.drums.presenter import DrumsPresenter
from honeyledger.services.tied import Tied, tied_by_codes


class TiedDrums(QObject):
    """Knows what the plan in the form ties together.

    Signals:
        known: it was told of the drums that stand in the form.
    """

    known = Signal()

    def __init__(self, desk: Desk, presenter: DrumsPresenter, parent: QObject) -> None:
        super().__init__(parent)
        self._desk, self._presenter = desk, presenter
        self._codes: tuple[str, ...] = ()
        self._tied: Tied | None = None
        presenter.asking.changed.connect(self._ask)
        presenter.shown.connect(lambda _page: self._ask(again=True))

    def now(self) -> Tied | None:
        """What they tie, where that is known of the drums as they are now."""
        return self._tied if self._codes == self._in_form() else None

    def _in_form(self) -> tuple[str, ...]:
        asking, page = self._presenter.asking, self._presenter.page
        if asking.kind != BLEND or page is None:
            return ()
        return tuple(line.code for line in asking.now().lines if page.row(line.code) is not None)

    def _ask(self, *, again: bool = False) -> None:
        codes = self._in_form()
        if not codes or (codes == self._codes and not again):
            return
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: tied_by_codes(view, codes)),
            lambda outcome: self._told(codes, outcome),
            about=(self, "tied"),
        )

    def _told(self, codes: tuple[str, ...], outcome: Outcome[Tied | None]) -> None:
        self._codes, self._tied = codes, outcome.value
        self.known.emit()
