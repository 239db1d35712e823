"""Settling a closed run with the owners of its honey, as a small form.

What each owner gets is told while it is typed: the ledger's own preview says it before it is
signed.
"""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.asked import AT, Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_percent
from honeyledger.ledger.verbs.owners import Settle

SETTLE, CLOSED = "settle", "closed runs"
WHOSE_DRUM = Sentence("whose-drum", "Say whose {drum} becomes: the owner's name, or take it off.")


def _tr(text: str) -> str:
    return QCoreApplication.translate("extraction", text)


def settle_form() -> FormSpec:
    """The run, the house's toll, and the drums that are handed over with whose each becomes."""
    return FormSpec(
        SETTLE,
        _tr("Settle"),
        _tr("Who gets what of a closed run, signed by name. Scan each drum that is handed over."),
        _tr("Settle the run"),
        (
            (
                Ask("run", _tr("Run that is closed"), Typing.CHOICE, offers=CLOSED, part=3),
                Ask("kept", _tr("The house keeps"), unit="%", part=2),
            ),
            (Ask("note", _tr("Note")),),
        ),
        _settled,
        lambda typed, _done, _reading: _tr("Run {run} is settled.").format(run=typed.text("run")),
        line=(Ask("owner", _tr("becomes whose")),),
        fields={"kept_permille": "kept"},
    )


def _settled(typed: FormTyped, _reading: Reading) -> Sequence[Settle]:
    kept = typed.text("kept")
    drums = []
    for line in typed.lines:
        owner = line.text("owner")
        if not owner:
            raise Refusal(WHOSE_DRUM, field=f"owner{AT}{line.code}", drum=line.code)
        drums.append((line.code, owner))
    permille = round(parse_percent(kept, field="kept") / 10) if kept else 0
    return [Settle(typed.text("run"), permille, tuple(drums), typed.text("note"))]
