"""Jars and units in the terminal, without a house."""

from tests.support.terminal import Terminal


def test_jars_from_a_weight(bare: Terminal) -> None:
    assert bare.do("reckon", "jars", "300", "500g", "--over", "2.4", "--lost", "2") == (
        "593 jars, 76 g left over\n"
    )
    assert bare.json("reckon", "jars", "661.4", "500g", "--unit", "lb")["jars"] == 600
    assert "1 jar, 0 g left over" in bare.do("reckon", "jars", "500g", "500g")
    assert bare.refused("reckon", "jars", "300", "0") == (
        "Type what a jar holds: a weight above 0."
    )


def test_units_are_exact(bare: Terminal) -> None:
    """By definition: the international pound of 1959, the two fixed points of water."""
    said = bare.do("reckon", "units", "--mass", "640lb", "--degrees", "95F")
    assert "290.299 kg = 640.000 lb" in said
    assert "35.0 °C = 95.0 °F" in said
    assert bare.refused("reckon", "units").startswith("Say what: --mass, --degrees or both")
