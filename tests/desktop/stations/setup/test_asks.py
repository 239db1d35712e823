"""Every register a person fills in has a form, and every question of it goes into the record."""

from honeyledger.desktop.stations.setup.asks import setup_kinds
from honeyledger.ledger.verbs.registers import KINDS


def test_every_kind_is_a_register_and_begins_with_a_name() -> None:
    for kind in setup_kinds():
        assert kind.register in KINDS
        assert kind.asks[0].key == "name"
        assert kind.sentence.endswith(".")


def test_every_register_has_its_form() -> None:
    assert {kind.register for kind in setup_kinds()} == set(KINDS)
