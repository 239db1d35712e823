"""The papers bought-in honey needs before it may leave, and the hold it is on until then.

A drum without its supplier's lot, its country (its own, or the supplier's by the register) and a
certificate (the supplier's or a laboratory's) is on hold from the moment it is booked in, and only
what is missing releases it.
"""

from collections.abc import Mapping, Sequence

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import Hold

CERTIFICATE, SUPPLIER_LOT, COUNTRY = "certificate", "supplier_lot", "country"
FLORAL = "floral"
"""What the bees worked, on a lot bought in; nobody need say it."""
PAPERS = {
    SUPPLIER_LOT: "the supplier's lot",
    COUNTRY: "the country",
    CERTIFICATE: "a certificate",
}
NEEDS = "needs"

HELD_FOR_PAPERS = Sentence(
    "held-for-papers",
    "{code} is on hold: it came without {missing}. Release it with what is missing, by name.",
)
PAPERS_FIRST = Sentence(
    "papers-first",
    "{code} came without {missing}: say it as the hold is released. Without it, keep it on hold "
    "or send it back.",
)


def hold_for_papers(b: Booking, lot: Lot, papers: Mapping[str, object]) -> None:
    """Hold a bought-in lot until what it came without is there."""
    needs = [name for name in PAPERS if not papers.get(name)]
    if not needs:
        return
    missing = _listed(needs)
    value = {
        "target": lot.code,
        "lots": [lot.id],
        "reason": f"bought in without {missing}",
        "by": b.act.operator,
        NEEDS: needs,
    }
    b.mark(f"hold/{b.entry_id}-{lot.code}", "hold", value)
    b.note(HELD_FOR_PAPERS, code=lot.code, missing=missing)


def bring_papers(b: Booking, hold: Hold, papers: Mapping[str, str]) -> None:
    """As a hold is released: what its lot came without is written down, or it is not released.

    Raises:
        Refusal: something is still missing.
    """
    mark = b.state.mark(hold.subject, "hold")
    value: Json = mark.value if mark else {}
    needs = value.get(NEEDS, ()) if isinstance(value, Mapping) else ()
    assert isinstance(needs, Sequence)
    missing = [str(name) for name in needs if not papers.get(str(name), "").strip()]
    if missing:
        raise Refusal(PAPERS_FIRST, field=missing[0], code=hold.target, missing=_listed(missing))
    for name in needs:
        b.mark(hold.target, str(name), papers[str(name)].strip())


def _listed(names: Sequence[str]) -> str:
    words = [PAPERS[name] for name in names]
    return " and ".join([", ".join(words[:-1]), words[-1]] if words[:-1] else words)
