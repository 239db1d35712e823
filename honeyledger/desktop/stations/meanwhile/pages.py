"""Which places have a page until their station is there."""

from collections.abc import Callable

from honeyledger.desktop.stations.meanwhile.incoming import season_page
from honeyledger.desktop.stations.meanwhile.page import Page

PAGES: dict[str, Callable[[], Page]] = {
    "season": season_page,
}
