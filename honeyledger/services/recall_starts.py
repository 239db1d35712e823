"""What a recall may stand on besides codes of this house: a supplier's own lot, by their name.

One lot number may be on several things, and two suppliers may use the same one: all of them are
meant until a person says which.
"""

from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Lot
from honeyledger.services.store import View

NOT_CALLED_SO = Sentence(
    "no-such-supplier-lot",
    "Nothing came in as lot {lot} of a supplier. Read their label again, or take the code of "
    "this house.",
)
_KINDS = ("purchase", "supply")


@dataclass(frozen=True, slots=True)
class TheirLot:
    """A lot number of a supplier, with the codes of all that came in under it."""

    text: str
    codes: tuple[str, ...]


def their_lots(view: View) -> tuple[TheirLot, ...]:
    """All lot numbers of suppliers, the newest first."""
    found: dict[str, tuple[str, list[str]]] = {}
    for lot in reversed(_came_in(view)):
        said = str(lot.attributes.get("supplier_lot", "")).strip()
        if said:
            found.setdefault(_plain(said), (said, []))[1].append(lot.code)
    return tuple(TheirLot(text, tuple(reversed(codes))) for text, codes in found.values())


def called_by_supplier(view: View, text: str) -> tuple[str, ...]:
    """The codes of all that came in under a supplier's lot number.

    Raises:
        Refusal: nothing did.
    """
    wanted = _plain(text)
    for one in their_lots(view):
        if _plain(one.text) == wanted:
            return one.codes
    raise Refusal(NOT_CALLED_SO, field="their_lot", lot=text.strip())


def _plain(text: str) -> str:
    return "".join(text.split()).casefold()


def _came_in(view: View) -> list[Lot]:
    """What was bought or delivered, in its order, reversed entries left out."""
    return [
        lot
        for entry in view.entries(_KINDS)
        if not view.reversed_by(entry.id)
        for lot in entry.lots
    ]
