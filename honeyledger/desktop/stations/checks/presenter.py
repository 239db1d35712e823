"""What the page of checks knows: what is due, the form in hand, what used what was found off."""

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.stations.checks.asks import HOLD, MADE, check_forms, is_off, last_right
from honeyledger.domain.checks import State
from honeyledger.exchange.checks import shipped_checks
from honeyledger.services.checks import CheckRow, ChecksPage, checks_page
from honeyledger.services.checks_used import Used
from honeyledger.services.store import View


class ChecksPresenter(AskedPage):
    """The page of checks and its forms."""

    page: ChecksPage | None

    def __init__(self, desk: Desk) -> None:
        folder = desk.assets / "checks"

        def question(view: View, now_ms: int) -> ChecksPage:
            return checks_page(view, now_ms, shipped_checks(folder))

        super().__init__(desk, "checks", check_forms(), question)
        self._offered = ""
        self.asking.changed.connect(self._offer_since)

    def row(self, key: str) -> CheckRow | None:
        """A check by its key."""
        return self.page.row(key) if self.page else None

    def used(self, key: str) -> Used | None:
        """What used a thing that was found off."""
        return self.page.used.get(key) if self.page else None

    def take(self, key: str) -> None:
        """A row was opened: what was found off is held, anything else is checked."""
        row = self.row(key)
        if row is None:
            return
        kind = HOLD if row.state is State.OFF else MADE
        self.asking.choose(kind)
        self.asking.fill(self.asking.typed[kind].with_value("check", key))

    def _offer_since(self) -> None:
        """Found off: the last time it was right is offered, and stays to be typed over."""
        asking = self.asking
        if asking.kind != MADE:
            return
        typed = asking.now()
        row = self.row(typed.text("check"))
        offer = last_right(row) if is_off(typed) else ""
        if offer == self._offered:
            return
        before, self._offered = self._offered, offer
        if typed.text("since") in ("", before):
            asking.fill(typed.with_value("since", offer))
