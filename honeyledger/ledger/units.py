"""The numbers of logistic units (SSCC): which case or shipping pallet has which, for ever.

A pack gets its number as it is packed, where the house has a company prefix on record. Numbers
count on through the seasons, whatever is reversed: what was printed on a pallet that left the
house must never stand on another one.
"""

from collections.abc import Mapping

from honeyledger.domain.gs1 import make_sscc, parse_gtin, read_elements, sscc_in, trade_item_in
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.places import place
from honeyledger.ledger.state import State

UNIT, PACK, SSCC = "unit", "pack", "sscc"

UNKNOWN_UNIT = Sentence(
    "unknown-unit",
    "{sscc} is the number (SSCC) of no case or pallet of this house: scan the code of what is on "
    "it, or enter it as the supplier's own lot code.",
)
RETAIL_CODE = Sentence(
    "retail-code",
    "{number} is the retail code of {product}, the same on all its jars: scan the code of the jar "
    "or its case, or type the lot's code.",
)


def number_unit(b: Booking, code: str) -> None:
    """Give a case or pallet its number, where the house has a company prefix.

    Raises:
        Refusal: the prefix has no number left.
    """
    prefix = b.rules.gs1_prefix
    if not prefix:
        return
    sscc = make_sscc(prefix, b.new_unit_number())
    b.mark(place(PACK, code), SSCC, sscc)
    b.mark(place(UNIT, sscc), PACK, code)


def unit_number(state: State, code: str) -> str:
    """The number of a case or pallet; "" where it was packed before the house had a prefix."""
    mark = state.mark(place(PACK, code), SSCC)
    return str(mark.value) if mark else ""


def pack_scanned(state: State, text: str, field: str = "code") -> str:
    """The code of the case or pallet whose number a text is; "" where it is no such number.

    Raises:
        Refusal: it is the number of no case or pallet of this house, or cannot be read.
    """
    sscc = sscc_in(text, field=field)
    if not sscc:
        return ""
    mark = state.mark(place(UNIT, sscc), PACK)
    if mark is not None:
        return str(mark.value)
    if (read_elements(text) or {}).get("10"):
        return ""  # a lot beside it, in the same symbol, may be ours
    raise Refusal(UNKNOWN_UNIT, field=field, sscc=sscc)


def refuse_retail(state: State, text: str, field: str) -> Refusal | None:
    """The refusal for the retail code of a product of this house; None for anything else."""
    gtin = trade_item_in(text)
    for mark in state.marked("record", "product/") if gtin else ():
        record = mark.value if isinstance(mark.value, Mapping) else {}
        if record.get("gtin") and gtin == parse_gtin(str(record["gtin"])):
            name = record.get("name", "")
            return Refusal(RETAIL_CODE, field=field, number=gtin.lstrip("0"), product=name)
    return None
