"""A season's wax against what is usual, and what destroyed comb costs in honey.

Usual are 1 to 2 lb of wax in 100 lb of honey extracted; bees use 7 to 10 lb of honey to make 1 lb
of wax (both common practice, no source). A full frame of comb has some 100 g of wax (a handbook at
second hand, for a deep one), so that a shallower one counts for too much rather than too little.
"""

from dataclasses import dataclass

from honeyledger.ledger.places import BARREL
from honeyledger.ledger.sources import is_cappings
from honeyledger.ledger.verbs.leftovers import SCRAP
from honeyledger.services.floor_pace import BoxFrames
from honeyledger.services.season_books import SeasonBooks, number_of, said_of
from honeyledger.services.season_losses import Losses, share_of

USUAL_LOW, USUAL_HIGH = 100, 200  # hundredths of a percent of the honey
HONEY_A_WAX = (7, 10)
WAX_A_FRAME_G = 100
_WAX = "wax"


@dataclass(frozen=True, slots=True)
class Wax:
    """A season's wax, grams.

    Args:
        honey_g: what its runs put into drums.
        cappings_g: cappings weighed in its runs; `waiting_g` of them stand in barrels yet.
        frames: of comb that were scrapped with their supers, or by themselves.
    """

    wax_g: int
    honey_g: int
    cappings_g: int
    waiting_g: int
    frames: int

    @property
    def share(self) -> int | None:
        """Wax of the honey, in hundredths of a percent; None without honey."""
        return share_of(self.wax_g, self.honey_g)

    @property
    def verdict(self) -> str:
        """Against the usual: "low", "usual", "high"; "" where nothing was melted yet."""
        share = self.share
        if not self.wax_g or share is None:
            return ""
        return "low" if share < USUAL_LOW else "high" if share > USUAL_HIGH else "usual"

    @property
    def lost_honey_g(self) -> tuple[int, int]:
        """What bees use to build the scrapped frames' comb again: at least, at most."""
        return comb_costs(self.frames * WAX_A_FRAME_G)


def comb_costs(wax_g: int) -> tuple[int, int]:
    """The honey that bees use to make so much wax again: at least, at most."""
    return wax_g * HONEY_A_WAX[0], wax_g * HONEY_A_WAX[1]


def season_wax(books: SeasonBooks, losses: Losses) -> Wax:
    """What was melted, and what was thrown away."""
    rendered = [lot for _, entry in books.of("melt") for lot in entry.lots]
    barrels = [row for row in books.view.on_hand([BARREL]) if is_cappings(row.lot)]
    return Wax(
        wax_g=sum(lot.made_g for lot in rendered if lot.attributes.get("sort") == _WAX),
        honey_g=sum(run.drums_g for run in losses.runs),
        cappings_g=sum(run.cappings_g for run in losses.runs),
        waiting_g=sum(row.grams for row in barrels if row.lot.season == books.season),
        frames=_scrapped(books),
    )


def _scrapped(books: SeasonBooks) -> int:
    frames = BoxFrames(books.view)
    found = 0
    for _, entry in books.of("set aside"):
        said = said_of(entry)
        if said.get("to") != SCRAP:
            continue
        found += number_of(said, "frames")
        pulls = {row.lot for row in entry.postings}
        each = max((frames.of(lot) for lot in pulls), default=0)
        found += number_of(said, "count") * each
    return found
