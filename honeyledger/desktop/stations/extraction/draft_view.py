"""What is half done on the floor, kept as a draft: typing, taps, questions, heels for closing."""

from collections.abc import Mapping

from honeyledger.desktop.stations.extraction.fields_view import LOAD, OPEN
from honeyledger.desktop.stations.extraction.form_view import (
    KIND_OF_VERB,
    VERB_OF_KIND,
    FloorForm,
)
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter, name_in_sheet
from honeyledger.desktop.stations.extraction.typed import closing_draft, heels_of


class FloorDraft:
    """Reads the form for its draft, and fills it from the one that was left."""

    def __init__(self, form: FloorForm, presenter: ExtractionPresenter) -> None:
        self._form, self._presenter = form, presenter
        presenter.draft = self.made
        presenter.restored.connect(self.take)

    def made(self) -> dict[str, object]:
        """What is typed, tapped and asked back, and which kind of happening is in hand."""
        form, presenter = self._form, self._presenter
        typed, asked = form.draft(), form.asked_back()
        pending = presenter.cappings_pending
        closing = closing_draft(presenter.run, presenter.heels, pending=pending)
        if not (typed or asked or closing) and form.kind in (LOAD, OPEN, ""):
            return {}
        command = presenter.command(VERB_OF_KIND[form.kind or OPEN]) if typed else ""
        made = {"typed": typed, "command": command, "asked": asked, "chosen": form.chosen()}
        return {"kind": form.kind, **made, **closing}

    def take(self, draft: Mapping[str, object]) -> None:
        """Show again what was half done when the window was closed."""
        typed, kind = draft.get("typed"), str(draft.get("kind"))
        if not isinstance(typed, Mapping):
            return
        form, presenter = self._form, self._presenter
        form.restore(typed)
        chosen, asked = draft.get("chosen"), draft.get("asked")
        if isinstance(chosen, Mapping):
            form.choose_again(chosen)
        if command := str(draft.get("command", "")):
            presenter.commands[VERB_OF_KIND.get(kind, "")] = command
        if presenter.run and draft.get("run") == presenter.run:
            presenter.heels = heels_of(draft, self._name_of)
            presenter.cappings_pending = bool(draft.get("pending"))
        if presenter.is_open() and kind in KIND_OF_VERB.values():
            form.choose(kind)
        form.ask_back(asked if isinstance(asked, list) else [])

    def _name_of(self, vessel: str) -> str:
        return name_in_sheet(self._presenter.sheet(), vessel)
