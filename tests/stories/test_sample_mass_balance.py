"""The sample season's balance by a reader of its own: pandas, over the exported postings alone.

pandas (BSD licence) adds up a CSV file; nothing of the program reads or sums here.
"""

from collections.abc import Iterator

import pandas as pd
import pytest

from honeyledger.services.stock import lot_balance
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, Season, loaded, season_read
from tests.support.terminal import Terminal

pytestmark = pytest.mark.long_on_server

BEFORE, AFTER = "Moisture before %", "Moisture after %"


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    folder = tmp_path_factory.mktemp("season")
    return Terminal(folder, where=SITE.copy(loaded()[0], folder / SAMPLE))


@pytest.fixture(scope="module")
def postings(season: Terminal) -> pd.DataFrame:
    file = season.folder / "postings.csv"
    season.do("export", "postings", "-o", str(file))
    return pd.read_csv(file, encoding="utf-8-sig")


def test_all_postings_and_those_of_each_entry_sum_to_nothing(postings: pd.DataFrame) -> None:
    assert len(postings) > 2_000
    assert postings["Grams"].sum() == 0
    assert (postings.groupby("Entry")["Grams"].sum() == 0).all()


def test_the_season_by_bucket_is_the_mass_balance(
    season: Terminal, postings: pd.DataFrame
) -> None:
    sums = postings.groupby("Bucket")["Grams"].sum().to_dict()
    balance = season.json("mass-balance")
    told = {row["code"]: -row["grams"] for row in balance["came"]}
    told |= {row["code"]: row["grams"] for row in balance["places"]}
    assert {name: grams for name, grams in told.items() if grams} == {
        name: grams for name, grams in sums.items() if grams
    }
    assert balance["gap_g"] == 0


@pytest.fixture(scope="module")
def read(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Season]:
    with season_read(tmp_path_factory.mktemp("read")) as season:
        yield season


def test_every_lot_by_place_is_its_mass_balance(read: Season, postings: pd.DataFrame) -> None:
    """Cappings aside: their difference is told as what the books did not see come, not as gone."""
    gone = postings[~postings["Bucket"].isin(["yard", "supplier", "unknown"])]
    sums: dict[str, dict[str, int]] = {}
    for (lot, where), grams in gone.groupby(["Lot", "Place"])["Grams"].sum().items():
        if grams:
            sums.setdefault(lot, {})[where] = grams
    made = [one for entry in read.everything for one in entry.lots]
    weighed = [lot for lot in made if lot.kind not in "WAX"]
    assert len(weighed) > 300
    for lot in weighed:
        balance = lot_balance(read.view, lot.code)
        places = {part.code: part.grams for part in balance.places if part.grams}
        assert places == sums.get(lot.code, {}), lot.code
        assert balance.gap_g == 0


def test_drying_takes_water_and_keeps_solids(postings: pd.DataFrame) -> None:
    """What stood there before is added up from the rows before; solids stay, to 1 g a lot."""
    dried = postings[(postings["Verb"] == "dry") & (postings["Bucket"] != "evaporated")]
    assert len(dried) > 50
    for row in dried.to_dict("records"):
        earlier = postings[
            (postings["Entry"] < row["Entry"])
            & (postings["Lot"] == row["Lot"])
            & (postings["Place"] == row["Place"])
        ]
        there = earlier["Grams"].sum()
        before = there * (100 - row[BEFORE]) / 100
        after = (there + row["Grams"]) * (100 - row[AFTER]) / 100
        assert abs(before - after) <= 1, row["Entry"]
        assert row["Grams"] < 0 < there
    water = postings[postings["Bucket"] == "evaporated"]["Grams"].sum()
    assert water == -dried["Grams"].sum()
