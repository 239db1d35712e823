"""Honey that is given to bees: out of the house for good, with what to be careful of.

Whether honey may be fed at all, and where, is for the local code; the program keeps which honey
went to which yard, so that both can be found.
"""

from collections.abc import Sequence

from honeyledger.domain.refusals import Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.heat import heated_among
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.mixing import contents, few, name_of, within
from honeyledger.ledger.places import FED, key_of, place
from honeyledger.ledger.pouring import take
from honeyledger.ledger.sources import find_source, home_of

FED_CARE = Sentence(
    "fed-care",
    "Honey fed to bees can carry foulbrood and residues: only your own, from healthy colonies, "
    "and as your local code has it.",
)
FED_OTHERS = Sentence(
    "fed-others",
    "{code} has honey of {homes} in reach, and {yard} gets it: be sure that their colonies are "
    "healthy.",
)
FED_HEATED = Sentence(
    "fed-heated", "{codes} was heated: its HMF can harm bees. Give them other honey."
)


def feed_honey(
    b: Booking, source: str, yard: str, net_g: int | None, why: str, *, whole: bool
) -> int:
    """Honey of a drum, pail or vessel goes to a yard's bees; the grams that went.

    Raises:
        Refusal: nothing is there, nobody said how much, or it is held and nobody says why it goes.
    """
    where = find_source(b, source)
    ask_held(b, contents(b, where), why, "source")
    taken = take(b, where, net_g, whole)
    for lot, grams in taken:
        b.move(lot, where, place(FED, key_of(yard)), grams)
    b.touches(where)
    note_fed(b, [lot for lot, _ in taken], yard)
    return sum(grams for _, grams in taken)


def note_fed(b: Booking, given: Sequence[int], yard: str) -> None:
    """What to be careful of: the honey of other yards in these lots, and heat."""
    b.note(FED_CARE)
    # What this entry could not find the source of has its own note.
    lots = [lot for lot in within(b, given) if lot.id < b.state.next_lot]
    homes = {home_of(b.state, lot) for lot in lots if lot.kind in "SP"} - {yard}
    if homes:
        names = few(sorted(name_of(b.state, home) for home in homes))
        code = b.lot(given[0]).code
        b.note(FED_OTHERS, code=code, homes=names, yard=name_of(b.state, yard))
    if heated := heated_among(b.state, [lot.code for lot in lots]):
        b.note(FED_HEATED, codes=few(heated))
