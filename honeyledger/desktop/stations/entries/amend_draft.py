"""An amendment half typed is kept on this computer, and found again after a crash."""

from collections.abc import Callable, Mapping
from dataclasses import asdict, fields

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.stations.entries.amend_view import AmendPanel
from honeyledger.desktop.stations.entries.amends import AmendTyped
from honeyledger.desktop.stations.entries.presenter import EntriesPage

CLOSING = frozenset({"closing"})


def amend_from(kept: Mapping[str, object]) -> AmendTyped:
    """What a draft kept; what it does not know stays empty."""
    texts = {part.name: kept.get(part.name) for part in fields(AmendTyped)}
    return AmendTyped(**{name: text for name, text in texts.items() if isinstance(text, str)})


class AmendDraft(QObject):
    """Keeps what the panel says while something is typed in it; `show` brings it back."""

    def __init__(self, desk: Desk, panel: AmendPanel, show: Callable[[], object]) -> None:
        super().__init__()
        self._panel, self._show = panel, show
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        for field in panel.fields():
            field.edited.connect(lambda _text: self._keeper.keep(self._draft()))
        desk.refresh.watch(CLOSING, lambda: self._keeper.keep_now(self._draft()))

    def show_page(self, page: EntriesPage) -> None:
        """The page has come; with the first one, what was left half typed."""
        if not self._keeper.name:
            self._keeper.name = f"amend-{page.head.ledger_id}"
            self._keeper.read(self._restored)

    def forget(self) -> None:
        """It is amended, or is not to be."""
        self._panel.show_ways(())
        self._keeper.keep({})

    def _draft(self) -> dict[str, object]:
        typed = self._panel.typed()
        is_begun = typed.what and (typed.right or typed.happened or typed.reason)
        return asdict(typed) if is_begun else {}

    def _restored(self, kept: Mapping[str, object]) -> None:
        typed = amend_from(kept)
        if typed.what and not self._draft():
            self._panel.restore(typed)
            self._show()
