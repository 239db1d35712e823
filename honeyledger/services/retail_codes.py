"""The retail code of a product: what a till reads off each of its jars."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.gs1 import parse_gtin
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.lookup import find_record
from honeyledger.services.store import View

NO_GTIN = Sentence(
    "product-without-gtin",
    "{product} has no GTIN on record: GS1 gives you one for each product, then register it in "
    "Setup, under Products.",
)


@dataclass(frozen=True, slots=True)
class RetailCode:
    """A sticker with the retail code of a product.

    Args:
        product: its name.
        net_g: what a jar holds, grams.
        gtin: its number, 14 digits.
    """

    label: ClassVar[str] = "retail code"
    product: str
    net_g: int
    gtin: str

    @property
    def code(self) -> str:
        """What it is known by: the product's number."""
        return self.gtin


def retail_code_of(view: View, text: str) -> RetailCode:
    """The retail code of a product by its name or key.

    Raises:
        Refusal: there is no such product, or it has no GTIN.
    """
    record: Mapping[str, object] = find_record(view, "product", text)[1]
    name, net = str(record.get("label") or record.get("name", "")), record.get("net_g", 0)
    if not record.get("gtin"):
        raise Refusal(NO_GTIN, field="product", product=name)
    return RetailCode(name, net if isinstance(net, int) else 0, parse_gtin(str(record["gtin"])))
