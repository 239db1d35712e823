"""A paper as it is looked at: the bytes of its PDF, and what of them is one look."""

from dataclasses import dataclass

from honeyledger.documents.raster import Box
from honeyledger.domain.phrases import Phrase


@dataclass(frozen=True, slots=True)
class SeenPaper:
    """A paper, page by page, or a sheet's labels one by one.

    Args:
        name: whose label it is, or how the paper is called.
        pdf: its bytes, as they are written.
        count: how many looks there are.
        size_mm: width and height of each.
        boxes: where each label of a page stands; none where a look is a whole page.
        first: the first label's place on the first page, from 1.
        notes: what is worth knowing of it.
    """

    name: str
    pdf: bytes
    count: int
    size_mm: tuple[float, float]
    boxes: tuple[Box, ...] = ()
    first: int = 1
    notes: tuple[Phrase, ...] = ()

    def look(self, number: int) -> tuple[int, Box | None]:
        """The page of a look, from 0, and what of it is seen."""
        if not self.boxes:
            return number, None
        page, place = divmod(self.first - 1 + number, len(self.boxes))
        return page, self.boxes[place]
