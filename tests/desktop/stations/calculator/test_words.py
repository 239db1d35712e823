"""The words of this page stay what they are where nothing translates them."""

from honeyledger.desktop.stations.calculator.words import tr


def test_words_without_a_translation_are_themselves() -> None:
    assert tr("Moisture") == "Moisture"
