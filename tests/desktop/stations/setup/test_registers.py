"""Every fact of every register that the terminal takes has its question in a form."""

import pytest

from honeyledger.commandline.register_facts import FACTS
from honeyledger.desktop.stations.setup.asks import SetupKind
from honeyledger.desktop.stations.setup.deeds import setup_kinds
from honeyledger.desktop.stations.setup.registers import (
    first_kinds,
    house_kind,
    kinds_of_the_floor,
    kinds_of_trade,
)
from honeyledger.ledger.booking import HouseRules
from honeyledger.ledger.verbs.registers import KINDS

REGISTERS = [kind for kind in setup_kinds() if kind.register]


@pytest.mark.parametrize("what", FACTS)
def test_what_the_terminal_takes_is_asked_here(what: str) -> None:
    asked = {ask.key for kind in REGISTERS if kind.register == what for ask in kind.asks}
    wanted = {fact.key for fact in FACTS[what]}
    assert wanted <= asked


def test_every_register_has_its_form_and_begins_with_a_name() -> None:
    assert {kind.register for kind in REGISTERS} == set(KINDS)
    for kind in (*first_kinds(), *kinds_of_the_floor(), *kinds_of_trade()):
        assert kind.asks[0].key == "name"
        assert not kind.asks[0].later
        assert kind.sentence.endswith(".")


def _default(kind: SetupKind, key: str) -> int:
    return int(next(ask.default for ask in kind.asks if ask.key == key))


def test_the_house_s_form_shows_what_counts_where_nothing_is_on_record() -> None:
    kind, rules = house_kind(), HouseRules()
    assert _default(kind, "margin_ms") * 60_000 == rules.margin_ms
    assert _default(kind, "usual_spread_permille") * 10 == rules.usual_spread_permille
    assert _default(kind, "shortfall_permille") * 10 == rules.shortfall_permille
    assert _default(kind, "jar_margin") == rules.jar_margin
