"""Checks, goods coming in and this computer's settings, as their forms say them."""

from datetime import date

import pytest

from honeyledger.desktop.stations.setup.asks import Deed
from honeyledger.desktop.stations.setup.deeds import (
    computer_settings,
    computer_values,
    deed_facts,
    named,
    setup_kinds,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.setup_page import SetupPage, setup_page
from honeyledger.settings import Settings
from tests.support.houses import BuiltHouse

BY_KEY = {kind.key: kind for kind in setup_kinds()}
TODAY = date(2026, 7, 24)


@pytest.fixture
def page() -> SetupPage:
    house = BuiltHouse()
    house.do(Register("equipment", {"name": "Drum scale", "sort": "scale"}))
    house.do(Register("supplier", {"name": "Glass Works"}))
    return house.house.ask(setup_page)


def test_a_check_is_of_the_instrument_named(page: SetupPage) -> None:
    typed = {"equipment": "drum scale", "what": "20 kg", "value": "20.0 kg", "result": "ok"}
    facts = deed_facts(BY_KEY["check"], typed, page, TODAY)
    assert facts == Check(page.registers["equipment"][0].key, "20 kg", "ok", "20.0 kg", "")


def test_packaging_goes_by_the_piece_and_an_ingredient_by_weight(page: SetupPage) -> None:
    jars = {"supplier": "Glass Works", "name": "Jars 500 g", "sort": "packaging", "count": "5 760"}
    facts = deed_facts(BY_KEY["supply"], jars, page, TODAY)
    assert facts == Supply("glass-works", "packaging", "Jars 500 g", Weight(), 5_760)
    spice = {"supplier": "Glass Works", "name": "cinnamon", "sort": "ingredient", "net_g": "2,5"}
    facts = deed_facts(BY_KEY["supply"], spice | {"best_before": "24 Jul 2027"}, page, TODAY)
    assert facts.weight == Weight(net_g=2_500)
    assert facts.best_before == "2027-07-24"


def test_what_cannot_be_read_names_its_field(page: SetupPage) -> None:
    for key, text in (("best_before", "soon"), ("count", "many"), ("net_g", "1.234")):
        typed = {"supplier": "Glass Works", "name": "Jars", "sort": "packaging", key: text}
        with pytest.raises(Refusal) as refused:
            deed_facts(BY_KEY["supply"], typed, page, TODAY)
        assert refused.value.field == key


def test_a_name_that_is_none_is_left_to_the_ledger(page: SetupPage) -> None:
    assert named(page, "supplier", "Nobody") == "Nobody"


def test_this_computer_remembers_what_its_form_says() -> None:
    settings = Settings(operator="Ann")
    values = computer_values(settings, "DOCK-PC")
    assert values == {
        "station": "DOCK-PC",
        "look": "light",
        "scale": "100",
        "language": "system",
        "density": "station",
        "tones": "yes",
    }
    assert computer_settings(settings, values, "DOCK-PC") == settings
    changed = computer_settings(
        settings, {"station": "dock", "look": "dark", "scale": "150", "language": "es"}, "DOCK-PC"
    )
    assert changed == Settings(
        operator="Ann", station="dock", look="dark", scale="150", tones=False, language="es"
    )


def test_every_kind_that_is_no_register_says_what_it_does() -> None:
    deeds = {kind.deed for kind in setup_kinds() if not kind.register}
    assert deeds == set(Deed) - {Deed.REGISTER}
