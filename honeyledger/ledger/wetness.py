"""How wet honey may be: the house's own two limits, and what is told above them.

Both are settings in the house's record. The first is common practice, no source; the second is
what Directive 2001/110/EC, annex II, allows most kinds of honey. Neither refuses anything.
"""

from honeyledger.domain.refusals import Sentence
from honeyledger.domain.units import format_moisture
from honeyledger.ledger.booking import Booking, rules_of
from honeyledger.ledger.state import State

DRY_FIRST = Sentence(
    "dry-first", "Above {limit}: dry first, wet honey ferments."
)  # Lochhead 1933, as quoted: above 17.1 % safety hangs on the yeast count
TOO_WET = Sentence(
    "too-wet-to-sell",
    "Above {limit}: most kinds of honey may have 20 % at most in the European Union (Directive "
    "2001/110/EC, annex II), and it ferments. Dry it or blend it down; follow your local code.",
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


def limit_words(limit: int) -> str:
    """A limit as people say it: without decimals where it needs none."""
    return format_moisture(limit, 1 if limit % 100 else 0)
