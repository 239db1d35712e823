"""The dock's page."""

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.stations.meanwhile.view import MeanwhileView


class DockView(MeanwhileView):
    """The page of the dock. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "dock")
