"""The words of the dock."""

from honeyledger.desktop.stations.dock.pallet_asks import pallet_forms
from honeyledger.desktop.stations.dock.words import TAKEN, tr


def test_what_the_page_knows_of_a_form_is_true_of_it() -> None:
    assert list(TAKEN) == [spec.key for spec in pallet_forms(lambda _code: None)]
    assert tr("Split") == "Split"
