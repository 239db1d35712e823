"""The words of a form stay what they are where nothing translates them."""

from honeyledger.desktop.stations.setup.asks import PATH, tr
from honeyledger.desktop.stations.setup.deeds import setup_kinds


def test_the_way_of_a_new_house_is_of_kinds_there_are() -> None:
    keys = [kind.key for kind in setup_kinds()]
    assert [key for key in keys if key in PATH] == list(PATH)
    assert tr("Name of the house") == "Name of the house"
