"""How wet honey may be: the house's own two limits, and what is told above them.

Both are settings in the house's record. The first is common practice, no source; the second is
what Directive 2001/110/EC, annex II, allows most kinds of honey. Neither refuses anything.
"""

from collections.abc import Iterable

from honeyledger.domain.keeping import class_of
from honeyledger.domain.refusals import Sentence
from honeyledger.domain.units import format_moisture
from honeyledger.ledger.booking import Booking, rules_of
from honeyledger.ledger.composite import latest
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.state import State

FERMENTS_FROM = 10
"""Yeast cells in a gram with which a class keeps a year: with so few or fewer it is told."""

DRY_FIRST = Sentence(
    "dry-first", "Above {limit}: dry first, wet honey ferments."
)  # Lochhead 1933, as quoted: above 17.1 % safety hangs on the yeast count
TOO_WET = Sentence(
    "too-wet-to-sell",
    "Above {limit}: most kinds of honey may have 20 % at most in the European Union (Directive "
    "2001/110/EC, annex II), and it ferments. Dry it or blend it down; follow your local code.",
)
MAY_FERMENT = Sentence(
    "bottled-may-ferment",
    "{code} has {moisture} of water: honey of its class {keeping} (Lochhead 1933, seen at second "
    "hand: a guide). Have its yeast counted, dry it or blend it down; follow your local code.",
)


def dry_first_over(state: State) -> int:
    """Above this, hundredths of a percent, honey is dried first."""
    return rules_of(state).dry_first_permille * 10


def note_wet(b: Booking, moisture: int) -> None:
    """Tell of honey that is too wet, by the higher limit it is over."""
    for limit, sentence in (
        (b.rules.too_wet_permille * 10, TOO_WET),
        (b.rules.dry_first_permille * 10, DRY_FIRST),
    ):
        if moisture > limit:
            b.note(sentence, limit=limit_words(limit))
            return


def note_fermenting(b: Booking, lots: Iterable[Lot]) -> None:
    """Tell of the wettest of these lots, where it is of a class that ferments."""
    read = [(value, lot.code) for lot in lots if (value := _wettest(b, lot)) is not None]
    moisture, code = max(read, default=(0, ""))
    found = class_of(moisture)
    if found.yeast_a_gram is None or found.yeast_a_gram > FERMENTS_FROM:
        return
    b.note(MAY_FERMENT, code=code, moisture=format_moisture(moisture), keeping=found.name)


def _wettest(b: Booking, lot: Lot) -> int | None:
    """A lot's own reading; of a tank fill nobody read, the wettest of what it was mixed from."""
    own = latest(b.state, lot.code, "moisture")
    if own is not None or lot.kind != "T":
        return own
    read = [latest(b.state, b.lot(one).code, "moisture") for one in b.parents(lot.id)]
    return max((value for value in read if value is not None), default=None)


def limit_words(limit: int) -> str:
    """A limit as people say it: without decimals where it needs none."""
    return format_moisture(limit, 1 if limit % 100 else 0)
