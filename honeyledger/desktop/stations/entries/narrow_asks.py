"""Narrowing a reach, as a small form: what cannot be in a lot, by name and with a reason."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.corrections import Narrow

NARROW, LOOSE = "narrow", "loose rows"
SAY_WHAT = Sentence(
    "say-what-is-not-in-it", "Choose what is not in it: only what is there at 0 g can go."
)


def narrow_form() -> FormSpec:
    """The lot, what is not in it, and why."""
    return FormSpec(
        NARROW,
        tr("Narrow"),
        tr("A narrower reach recalls less: only where somebody knows, and signs for it."),
        tr("Take it out of reach"),
        (
            (Ask("lot", tr("Lot: scan its label")),),
            (Ask("row", tr("What is not in it"), Typing.CHOICE, offers=LOOSE),),
            (Ask("reason", tr("Why it cannot be in there")),),
        ),
        _narrowed,
        lambda typed, _done, _reading: tr("The reach of {lot} is narrower.").format(
            lot=typed.text("lot")
        ),
        scan="lot",
        fields={"line": "row", "entry": "row", "place": "row"},
    )


def _narrowed(typed: FormTyped, _reading: Reading) -> Sequence[Narrow]:
    row, reason, lot = typed.text("row"), typed.text("reason"), typed.text("lot")
    if not row:
        raise Refusal(SAY_WHAT, field="row")
    entry, _, line = row.partition(" ")
    if entry.isdigit() and line.isdigit():
        return [Narrow(lot, reason, int(entry), int(line))]
    return [Narrow(lot, reason, place=row)]
