"""Sizes of label stock: what a sheet or roll measures, and why some sizes cannot be.

A house keeps its own stock in whole micrometres; what is shipped is read into the same record.
"""

from collections.abc import Mapping

from honeyledger.domain.paper_colour import parse_paper_colour
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_number, parse_figure

A4, LETTER, SHEET, ROLL = "a4", "letter", "sheet", "roll"
# ISO 216 and ANSI/ASME Y14.1; width and height in micrometres.
PAPERS_UM = {A4: (210_000, 297_000), LETTER: (215_900, 279_400)}
MEASURES = (
    *("width_um", "height_um", "left_um", "top_um", "gap_x_um", "gap_y_um"),
    *("sheet_width_um", "sheet_height_um"),
)
MOST_MM = 1_000

NO_SUCH_PAPER = Sentence(
    "no-such-paper", "Labels come on {papers}, not on {paper}: choose one of them."
)
LABEL_UNMEASURED = Sentence(
    "label-unmeasured", "Measure one label: type its {side} in millimetres."
)
SHEET_UNMEASURED = Sentence(
    "sheet-unmeasured", "Measure the sheet: type its {side} in millimetres."
)
NO_LABELS_ON_IT = Sentence(
    "no-labels-on-it", "Count the labels {way}: there is at least one, and at most 99."
)
MEASURE_BELOW_ZERO = Sentence(
    "measure-below-zero", "{what} cannot be below zero: measure it again."
)
COLUMNS_TOO_WIDE = Sentence(
    "columns-too-wide",
    "{count} labels side by side take {taken} mm with the left margin and the gaps, and the sheet "
    "is {sheet} mm wide: measure again, or count the columns again.",
)
ROWS_TOO_HIGH = Sentence(
    "rows-too-high",
    "{count} labels one under another take {taken} mm with the upper margin and the gaps, and the "
    "sheet is {sheet} mm high: measure again, or count the rows again.",
)
_SAID = {
    "left_um": "The left margin",
    "top_um": "The upper margin",
    "gap_x_um": "The gap between columns",
    "gap_y_um": "The gap between rows",
}


def parse_um(text: str, field: str) -> int:
    """Read a measure in millimetres, to the hundredth, into micrometres.

    Raises:
        Refusal: it is no number, is below zero, or longer than any label sheet.
    """
    number = text.strip().removesuffix("mm").rstrip()
    bounds = (0, MOST_MM)
    return 10 * parse_figure(
        number, "a measure in mm", "63.5", decimals=2, bounds=bounds, field=field
    )


def parse_shift(text: str, field: str) -> float:
    """Read how far a print is to be moved, to the tenth of a millimetre; a minus moves it back.

    Raises:
        Refusal: it is no number, or more than a fine correction.
    """
    number = text.strip().removesuffix("mm").rstrip()
    back = number.startswith(("-", "−"))
    what, bounds = "a shift in mm", (0, 10)
    tenths = parse_figure(
        number.lstrip("-−+ "), what, "0.3", decimals=1, bounds=bounds, field=field
    )
    return (-tenths if back else tenths) / 10


def parse_length(text: str, field: str) -> float:
    """Read what a line measures in millimetres, to the tenth.

    Raises:
        Refusal: it is no number, or longer than any sheet.
    """
    number = text.strip().removesuffix("mm").rstrip()
    bounds = (0, MOST_MM)
    return (
        parse_figure(number, "a length in mm", "99.7", decimals=1, bounds=bounds, field=field) / 10
    )


def mm_text(um: int) -> str:
    """A measure as it is typed, without its unit: 63.5."""
    return f"{um / 1000:g}"


def page_um(record: Mapping[str, object]) -> tuple[int, int]:
    """Width and height of a stock's sheet, or of one label of a roll."""
    paper = record.get("paper")
    if paper == SHEET:
        return _um(record, "sheet_width_um"), _um(record, "sheet_height_um")
    own = _um(record, "width_um"), _um(record, "height_um")
    return PAPERS_UM.get(str(paper), own)


def check_stock(record: Mapping[str, object]) -> None:
    """Whether a stock of these sizes can be.

    Raises:
        Refusal: a size is missing or below zero, the labels do not lie on the sheet, or its paper
            has a colour nobody knows.
    """
    parse_paper_colour(str(record.get("colour", "")))
    paper = str(record.get("paper", ""))
    if paper not in (*PAPERS_UM, SHEET, ROLL):
        papers = "A4, Letter, sheets of another size or a roll"
        raise Refusal(NO_SUCH_PAPER, field="paper", papers=papers, paper=paper or "nothing")
    if paper == SHEET:
        _check_size(record, SHEET_UNMEASURED, "sheet_width_um", "sheet_height_um")
    _check_size(record, LABEL_UNMEASURED, "width_um", "height_um")
    for measure, what in _SAID.items():
        if _um(record, measure) < 0:
            raise Refusal(MEASURE_BELOW_ZERO, field=measure, what=what)
    if paper == ROLL:
        return
    for count, way in (("columns", "side by side"), ("rows", "one under another")):
        if not 1 <= _um(record, count, 1) <= 99:
            raise Refusal(NO_LABELS_ON_IT, field=count, way=way)
    _check_room(record)


def _check_size(record: Mapping[str, object], sentence: Sentence, wide: str, high: str) -> None:
    for measure, side in ((wide, "width"), (high, "height")):
        if _um(record, measure) <= 0:
            raise Refusal(sentence, field=measure, side=side)


def _check_room(record: Mapping[str, object]) -> None:
    width, height = page_um(record)
    ways = (
        (COLUMNS_TOO_WIDE, "columns", "left_um", "width_um", "gap_x_um", width),
        (ROWS_TOO_HIGH, "rows", "top_um", "height_um", "gap_y_um", height),
    )
    for sentence, counted, margin, size, gap, sheet in ways:
        count = _um(record, counted, 1)
        taken = _um(record, margin) + count * _um(record, size) + (count - 1) * _um(record, gap)
        if taken > sheet:
            raise Refusal(
                sentence,
                field=counted,
                count=format_number(count),
                taken=mm_text(taken),
                sheet=mm_text(sheet),
            )


def _um(record: Mapping[str, object], key: str, usual: int = 0) -> int:
    value = record.get(key, usual)
    return value if isinstance(value, int) else usual
