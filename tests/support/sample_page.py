"""The season's page of the sample, asked once in a test process: nobody can change it."""

import tempfile
from functools import cache
from pathlib import Path

from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.season_page import SeasonPage, season_page
from tests.support.sample import season_read


@cache
def sample_page() -> SeasonPage:
    """The sample's own season, at its own now."""
    with (
        tempfile.TemporaryDirectory(prefix="honey-page-") as folder,
        season_read(Path(folder)) as season,
    ):
        return season_page(season.view, SAMPLE_NOW_MS)
