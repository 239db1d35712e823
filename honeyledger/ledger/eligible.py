"""Whether honey may leave for the market its customer is in, by what is in reach of each lot.

A lot is not eligible where any of its sources is not, whatever its share; by the books now, or as
they were sealed when jars were bottled. What nobody knows the source of is said, not refused.
What a market asks for besides is a matter of your local code.
"""

from collections.abc import Mapping, Sequence

from honeyledger.domain.claims import Claimed, Ruling
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.claims import claims_of, frozen, names_in
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.mixing import few, name_of

MARKET = "market"
"""What a customer's record calls the markets it is in, with commas between several."""

NOT_ELIGIBLE = Sentence(
    "not-eligible-there",
    "{customer} is in {market}, and {code} is not eligible for export there, because of {lots} "
    "from {sources}. Take it off the note, or put those records right.",
)
NOT_KNOWN_THERE = Sentence(
    "not-known-there",
    "{customer} is in {market}, and nobody knows where {lots} in {code} are from: whether it is "
    "eligible there the books cannot tell.",
)


def refuse_ineligible(b: Booking, lots: Sequence[Lot], customer: str) -> None:
    """Nothing leaves for a market that some of its honey is not eligible for.

    Raises:
        Refusal: a lot is not; the sentence has the lots that decide it.
    """
    mark = b.state.mark(customer, "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    honey = [lot for lot in lots if lot.kind != "A"]
    markets = names_in(str(record.get(MARKET, ""))) if honey else ()
    if not markets:
        return
    shown = {"customer": name_of(b.state, customer)}
    # A claim of all together is never stronger than that of one: mostly one question is enough.
    together = claims_of(b.state, {lot.id: lot.made_g for lot in honey})
    for market in markets:
        is_plain = together and together.for_market(market).ruling is Ruling.ALLOWED
        for lot in honey:
            if not is_plain:
                _look_now(b, lot, {"market": market, **shown})
            _look_back(b, lot, {"market": market, **shown})


def _look_now(b: Booking, lot: Lot, shown: dict[str, str]) -> None:
    claims = claims_of(b.state, {lot.id: lot.made_g})
    if claims is None:
        return
    found = claims.for_market(shown["market"])
    if found.ruling is Ruling.NOT_ALLOWED:
        raise _refusal(found, lot.code, shown)
    if found.ruling is Ruling.NOT_PROVABLE:
        b.note(NOT_KNOWN_THERE, code=lot.code, lots=few(found.lots), **shown)


def _look_back(b: Booking, lot: Lot, shown: dict[str, str]) -> None:
    sealed = frozen(b.state, lot.code)
    found = sealed.for_market(shown["market"]) if sealed else None
    if found is not None and found.ruling is Ruling.NOT_ALLOWED:
        raise _refusal(found, phrase("{code} as it was bottled", code=lot.code), shown)


def _refusal(found: Claimed, code: str, shown: dict[str, str]) -> Refusal:
    sources = few(found.sources)
    return Refusal(
        NOT_ELIGIBLE, field="code", code=code, lots=few(found.lots), sources=sources, **shown
    )
