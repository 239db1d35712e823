"""What the set-up asks of labels is what their rules know."""

from honeyledger.commandline.register_facts import FACTS
from honeyledger.desktop.stations.setup.label_asks import worded, wordings
from honeyledger.domain.label_content import ITEMS


def test_a_product_is_asked_what_the_terminal_takes() -> None:
    facts = {fact.key for fact in FACTS["product"]}
    assert {one.key for one in worded()} <= facts


def test_a_wording_is_asked_what_the_terminal_takes_and_offers_each_item() -> None:
    asks = {one.key: one for one in wordings().asks}
    assert set(asks) == {"name", *(fact.key for fact in FACTS["wording"])}
    assert asks["item"].offers == tuple(ITEMS)
