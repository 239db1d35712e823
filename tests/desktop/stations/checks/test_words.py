"""The words of this page stay what they are where nothing translates them."""

from honeyledger.desktop.stations.checks.words import tr


def test_words_without_a_translation_are_themselves() -> None:
    assert tr("Check made") == "Check made"
