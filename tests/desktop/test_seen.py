"""What of a PDF is one look."""

from honeyledger.desktop.seen import SeenPaper
from honeyledger.documents.raster import Box


def test_a_paper_is_looked_at_page_by_page() -> None:
    assert SeenPaper("The pad", b"", 3, (210, 297)).look(2) == (2, None)


def test_a_sheet_is_looked_at_label_by_label_from_the_first_free_one_on() -> None:
    boxes = tuple(Box(10 * number, 0, 10, 5) for number in range(4))
    sheet = SeenPaper("J", b"", 6, (10, 5), boxes, first=4)
    assert [sheet.look(number) for number in (0, 1, 4, 5)] == [
        (0, boxes[3]),
        (1, boxes[0]),
        (1, boxes[3]),
        (2, boxes[0]),
    ]
