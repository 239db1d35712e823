"""What a lot's history says of holds: put on it, ended, or it alone cleared of one upstream.

They are marks on the hold and not on the lot, so no entry of the lot has them.
"""

from collections.abc import Collection, Mapping

from honeyledger.domain.phrases import phrase
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import hold_from, target_text
from honeyledger.ledger.state import Mark
from honeyledger.services.histories import Told
from honeyledger.services.holding import name_in
from honeyledger.services.store import View


def holds_told(view: View, lot: Lot, entries: Collection[int]) -> list[Told]:
    """One sentence for each hold that stands or stood on the lot, its end, and its clearing.

    Args:
        entries: those that are told already; a hold made with its lot is one of them.
    """
    told = []
    for mark in view.marked("hold", "hold/"):
        if not isinstance(mark.value, Mapping):
            continue
        on_it = lot.id in hold_from(mark.subject, mark.value, ()).lots
        if on_it and mark.entry not in entries:
            why_so = _ended(_word(mark.value, "reason"))
            told.append(_told(view, mark, phrase("Put on hold: {reason}", reason=why_so)))
        released = view.mark(mark.subject, "released") if on_it else None
        if released and isinstance(released.value, Mapping) and released.entry not in entries:
            why_so = _ended(_word(released.value, "reason"))
            told.append(_told(view, released, phrase("Hold ended: {reason}", reason=why_so)))
        cleared = view.mark(mark.subject, f"cleared/{lot.id}")
        if cleared and isinstance(cleared.value, Mapping):
            target = target_text(view, hold_from(mark.subject, mark.value, ()))
            why = [_word(cleared.value, name) for name in ("result", "reason")]
            found = _ended("; ".join(word for word in why if word))
            words = phrase("Cleared of the hold on {target}: {found}", target=target, found=found)
            told.append(_told(view, cleared, words))
    return told


def _told(view: View, mark: Mark, words: str) -> Told:
    entry = view.entry(mark.entry)
    assert entry is not None
    by = entry.act.operator
    return Told(
        entry=entry.id,
        happened=entry.act.happened,
        kind=entry.kind,
        sentence=words,
        by=name_in(view, f"operator/{by}", by) if by else "",
        reversed_by=0,
    )


def _ended(words: str) -> str:
    """The end of a sentence, with one full stop."""
    return words.rstrip(".") + "."


def _word(value: Mapping[str, Json], name: str) -> str:
    return str(value.get(name, ""))
