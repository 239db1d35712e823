"""Bought-in honey: a lot a drum with the supplier's lot and countries, and what goes back."""

from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.certificates import (
    CERTIFICATE,
    COUNTRY,
    FLORAL,
    SUPPLIER_LOT,
    hold_for_papers,
)
from honeyledger.ledger.containers import Container, container_at, find_container
from honeyledger.ledger.lookup import find_lot, find_record
from honeyledger.ledger.once import check_once
from honeyledger.ledger.places import DRUM, SUPPLIER, class_of, key_of, place
from honeyledger.ledger.signing import check_reason
from honeyledger.ledger.sources import Weight, home_of, net_of
from honeyledger.ledger.stated import Part, check_parts, parts_text
from honeyledger.ledger.title import note_stranger
from honeyledger.ledger.verbs.dispatch import carry, shelf
from honeyledger.ledger.verbs.drums import WEIGH_IT

STILL_HOLDS = Sentence(
    "still-holds", "{container} still holds {grams}. Take an empty one, or empty it first."
)
ONE_OR_SEVERAL = Sentence(
    "one-country-or-several",
    "Name either the one country, or all of the several, with their shares if they are known.",
)
NOTHING_SENT_BACK = Sentence(
    "nothing-sent-back", "Scan the bought-in drums that go back to the supplier."
)


@dataclass(frozen=True, slots=True)
class Purchase:
    """A drum of bought-in honey: a source lot of its own, with the supplier's lot and country.

    Args:
        country: where it is from, else as in the supplier's record; of a blend `countries` says
            them all, instead.
        certificate: number of the certificate or the laboratory's report it came with.
        floral: what the bees worked, as its supplier states it; "" where nobody said.
    """

    kind: ClassVar[str] = "purchase"
    supplier: str
    weight: Weight
    supplier_lot: str = ""
    country: str = ""
    container: str = ""
    owner: str = ""
    countries: tuple[Part, ...] = ()
    certificate: str = ""
    floral: str = ""


@dataclass(frozen=True, slots=True)
class SendBack:
    """Bought-in drums go back to their supplier; they stay on record."""

    kind: ClassVar[str] = "send back"
    lots: tuple[str, ...]
    reason: str
    carrier: str = ""
    reference: str = ""


def book_purchase(facts: Purchase, b: Booking) -> None:
    """Honey bought in is its own source, never a yard; it is known by the supplier's lot.

    What clings in a container of the house that it came into is in its reach.
    """
    supplier, record = find_record(b.state, SUPPLIER, facts.supplier)
    if facts.country and facts.countries:
        raise Refusal(ONE_OR_SEVERAL, field="countries")
    check_parts(facts.countries, "countries")
    code = b.new_code("P")
    drum = empty_container(b, facts.container, code)
    net = net_of(facts.weight, drum.tare_g)
    if net is None:
        raise Refusal(WEIGH_IT, field="net_g")
    country = facts.country or parts_text(facts.countries)
    note_stranger(b, facts.owner)
    rows = b.standing(drum.place)
    lot = b.make_lot(
        "P",
        net,
        [(row.lot.id, 0) for row in rows],
        code=code,
        attributes={
            "supplier": key_of(supplier),
            "supplier_lot": facts.supplier_lot,
            "country": country,
            "countries": {part.name.strip(): part.permille or 0 for part in facts.countries},
            "certificate": facts.certificate,
            "owner": facts.owner,
            "container": key_of(drum.place) if facts.container else "",
            **({FLORAL: floral} if (floral := " ".join(facts.floral.split())) else {}),
        },
    )
    for row in rows:
        b.leaves(drum.place, row.lot.id)
    b.comes(drum.place, lot.id)
    b.move(lot.id, supplier, drum.place, net)
    b.touches(drum.place)
    papers = {
        SUPPLIER_LOT: facts.supplier_lot,
        COUNTRY: country or record.get("country"),
        CERTIFICATE: facts.certificate,
    }
    hold_for_papers(b, lot, papers)


def empty_container(b: Booking, text: str, code: str) -> Container:
    """The container honey from outside is booked into: one of the house, empty, or its own drum.

    Raises:
        Refusal: the books see honey in it.
    """
    if not text:
        return container_at(b, place(DRUM, code))
    drum = find_container(b, text)
    if held := b.grams_at(drum.place):
        raise Refusal(STILL_HOLDS, field="container", container=drum.name, grams=format_mass(held))
    return drum


def book_send_back(facts: SendBack, b: Booking) -> None:
    """All that is left of each drum goes back to the supplier it is from, held or not."""
    check_reason(facts.reason)
    if not facts.lots:
        raise Refusal(NOTHING_SENT_BACK, field="lots")
    said = {
        "reason": facts.reason,
        "carrier": facts.carrier,
        "reference": facts.reference,
    }
    lots = [find_lot(b.state, text, "P", "lots") for text in facts.lots]
    check_once([lot.code for lot in lots], "lots")
    for lot in lots:
        here = shelf(b, lot)
        supplier = home_of(b.state, lot)
        carry(b, lot, here.place, supplier, here.grams, 0)
        if class_of(here.place) == DRUM:
            # It may have been filled on before, by an entry that is still to come.
            b.draws(here.place, lot.id)
        b.mark(lot.code, "sent back", {"to": supplier, "grams": here.grams, **said})
