"""Words of the page of exposure."""

from honeyledger.desktop.stations.exposure.words import bare, counted, tr


def test_words_are_given_back_where_nothing_is_translated() -> None:
    assert tr("Costs") == "Costs"
    assert counted(2, tr("1 source"), tr("{n} sources")) == "2 sources"
    assert bare(1_500_000, "kg", 0).endswith("500")
