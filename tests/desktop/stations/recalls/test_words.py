"""The words of the page."""

from honeyledger.desktop.stations.recalls.words import counted, tr


def test_words_without_another_language_are_their_own() -> None:
    assert tr("Told") == "Told"
    assert counted(1, "one", "{n} ones") == "one"
    assert counted(3, "one", "{n} ones") == "3 ones"
