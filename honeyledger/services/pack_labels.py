"""What stands on the label of a case or shipping pallet, and what its GS1 symbols hold.

Only what is sure goes into a symbol: content where all of it is one lot of one product with a
trade item number, the date where the product says how long it keeps. The weight does not: jars
are sold by a fixed content, which their number stands for.
"""

from calendar import monthrange
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import ClassVar

from honeyledger.domain.codes import JarCode
from honeyledger.domain.gs1 import parse_gtin
from honeyledger.domain.moments import day_of
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import read_code, refuse_unknown
from honeyledger.ledger.packs import CASE, contents_of, jars_in, left_with
from honeyledger.ledger.units import unit_number
from honeyledger.services.claims import product_of
from honeyledger.services.holding import name_in
from honeyledger.services.label_marks import DAY_IS_NEEDED, YEAR_IS_ENOUGH
from honeyledger.services.store import View

NOTHING_IN_IT = Sentence(
    "pack-label-empty",
    "{code} is empty now, so there is nothing to print on its label. Name a case or pallet that "
    "is packed.",
)


@dataclass(frozen=True, slots=True)
class Packed:
    """One lot in a case or on a pallet.

    Args:
        product: its name.
        lot: the lot's code.
        pieces: how many jars of it.
        net_g: what one holds, grams.
        best_before: as a day; None where the product does not say how long it keeps.
    """

    product: str
    lot: str
    pieces: int
    net_g: int
    best_before: date | None = None


@dataclass(frozen=True, slots=True)
class PackLabel:
    """The label of a case or shipping pallet.

    Args:
        code: its own code.
        house: who packed it.
        place: where that is.
        is_case: whether it is a case; else a shipping pallet.
        contents: what is in it, lot by lot.
        cases: how many cases stand on a pallet.
        sscc: its number as a logistic unit; "" where it has none.
        elements: what its square symbol holds, AI by AI; nothing where it has no number.
        again: which print of it this is, after the first.
    """

    label: ClassVar[str] = "case or pallet label"
    code: str
    house: str
    place: str
    is_case: bool
    contents: tuple[Packed, ...]
    cases: int = 0
    sscc: str = ""
    elements: Mapping[str, str] = field(default_factory=dict)
    again: int = 0

    @property
    def net_g(self) -> int:
        """The honey in it, grams."""
        return sum(one.pieces * one.net_g for one in self.contents)


def pack_label(view: View, text: str) -> PackLabel:
    """The label of a case or shipping pallet, as it was packed; of one that left, as it left.

    Raises:
        Refusal: no such code, or it is empty.
    """
    read = read_code(view, text, "code")
    code = str(read)
    if isinstance(read, JarCode) or not view.is_given(code):
        raise refuse_unknown(view, text, "code")
    rows = jars_in(view, code) or left_with(view, code)
    if not rows:
        raise Refusal(NOTHING_IN_IT, field="code", code=code)
    lots = [view.lot_by_code(row.code) for row in rows]
    contents = [_packed(view, lot, row.pieces) for lot, row in zip(lots, rows, strict=True) if lot]
    gtins = {_gtin(view, lot) for lot in lots if lot}
    sscc = unit_number(view, code)
    house = view.mark("house", "record")
    record = house.value if house and isinstance(house.value, Mapping) else {}
    return PackLabel(
        code=code,
        house=str(record.get("producer", "")) or name_in(view, "house", "Honey house"),
        place=str(record.get("place", "")),
        is_case=read.letter == CASE,
        contents=tuple(contents),
        cases=sum(not row.pieces for row in contents_of(view, code)),
        sscc=sscc,
        elements=pack_elements(sscc, gtins.pop() if len(gtins) == 1 else "", contents),
    )


def pack_elements(sscc: str, gtin: str, contents: list[Packed]) -> dict[str, str]:
    """The elements of a unit's square symbol: its number, and its content where that is one lot.

    Content (AI 02) comes with its count (37), and with its lot (10) and date (15) where they are
    known. Source: gs1/gs1-syntax-dictionary, gs1-syntax-dictionary.txt.
    """
    if not sscc:
        return {}
    elements = {"00": sscc}
    if gtin and len(contents) == 1:
        one = contents[0]
        elements |= {"02": gtin}
        if one.best_before:
            elements |= {"15": f"{one.best_before:%y%m%d}"}
        elements |= {"37": str(one.pieces), "10": one.lot}
    return elements


def best_before_day(bottled: date, keeps_months: int) -> date:
    """The last day of the best-before line that `labelling.best_before` writes."""
    months = bottled.year * 12 + bottled.month - 1 + keeps_months
    year, month = divmod(months, 12)
    last = monthrange(year, month + 1)[1]
    if keeps_months <= DAY_IS_NEEDED:
        return date(year, month + 1, min(bottled.day, last))
    return date(year, 12, 31) if keeps_months > YEAR_IS_ENOUGH else date(year, month + 1, last)


def _packed(view: View, lot: Lot, pieces: int) -> Packed:
    product = product_of(view, lot)
    made = view.entry(lot.made_by)
    assert made is not None
    keeps, net = product.get("keeps_months"), product.get("net_g", 0)
    due = None
    # A line in the house's own words is its own to keep; no date is read out of it.
    if isinstance(keeps, int) and keeps and not product.get("best_before"):
        due = best_before_day(day_of(made.act.happened), keeps)
    return Packed(
        product=str(product.get("label") or product.get("name") or lot.code),
        lot=lot.code,
        pieces=pieces,
        net_g=net if isinstance(net, int) else 0,
        best_before=due,
    )


def _gtin(view: View, lot: Lot) -> str:
    gtin = str(product_of(view, lot).get("gtin", ""))
    return parse_gtin(gtin) if gtin else ""
