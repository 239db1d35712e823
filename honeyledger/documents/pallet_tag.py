"""The tag on a pallet of supers: what stands there, from which yards, whether it dries first."""

from honeyledger.documents.fonts import (
    HEAVY,
    STRONG,
    TEXT,
    elided,
    width_mm,
)
from honeyledger.documents.page import code_width_mm
from honeyledger.documents.parts import Job
from honeyledger.documents.setting import Block, capital_mm
from honeyledger.documents.symbols import make_symbol
from honeyledger.domain.units import format_mass, format_moisture, format_number
from honeyledger.services.papers import PalletTag, PulledLine

_MARGIN = 5.5
_BAND = 13.0
_TALL_ROW = 10.0
_TALLEST_ROW = 17.0
_FLAT_ROW = 6.4
_TOTAL = 8.5


def draw_pallet_tag(job: Job, tag: PalletTag) -> None:
    """Draw one tag."""
    width = job.width - 2 * _MARGIN
    y = _draw_head(job, tag, width)
    if tag.dry_first:
        _draw_dry_first(job, y, width)
        y += _BAND + 4
    facts = [
        ("Gross", format_mass(tag.gross_g, job.unit) if tag.gross_g is not None else ""),
        ("Condition", tag.condition),
    ]
    if tag.moisture_hundredths is not None:
        facts.insert(1, ("Moisture", format_moisture(tag.moisture_hundredths)))
    y = job.facts(facts, y, _MARGIN, 3)
    _draw_pulls(job, tag, y, width)
    job.head(tag.head, _MARGIN)
    job.again(tag.again, _MARGIN)


def _draw_head(job: Job, tag: PalletTag, width: float) -> float:
    symbol = make_symbol(tag.uri or tag.code)
    y = _MARGIN
    received = f"Received {tag.received.isoformat()}"
    taken = width_mm(received, TEXT, 9) + 4
    job.line(Block(received, TEXT, 9, 9), _MARGIN + width, y, width, align=1)
    job.name(Block(tag.house, STRONG, 9, 6.6), _MARGIN, y, width - taken)
    y += capital_mm(9) + 5
    y += job.code(tag.code, _MARGIN, y, width, 60) + 6
    side = job.symbol(symbol, _MARGIN, y, min(42.0, job.height * 0.29), 1.4)
    right = _MARGIN + side + 9
    count = format_number(tag.supers)
    room = _MARGIN + width - right
    line = job.line(Block(count, HEAVY, 60, 30), right, y, room)
    unit = "super" if tag.supers == 1 else "supers"
    yards = len({pull.yard for pull in tag.pulls})
    said = f"{unit} from {yards} yards" if yards > 1 else f"{unit} from one yard"
    job.line(Block(said, STRONG, 12, 7), right, y + line + 4.5, room)
    return y + max(side, line + 12) + 6.5


def _draw_dry_first(job: Job, y: float, width: float) -> None:
    """Draw the band: the warning's own triangle with its stroke cut out, then the words."""
    page = job.page
    page.shape(_rectangle(_MARGIN, y, width, _BAND))
    height = _BAND * 0.66
    top, middle = y + (_BAND - height) / 2, _MARGIN + 10
    half = height * 0.6
    bottom = top + height
    page.shape([(middle, top), (middle + half, bottom), (middle - half, bottom)], white=True)
    stroke = 1.1
    page.shape(_rectangle(middle - stroke / 2, top + height * 0.36, stroke, height * 0.32))
    page.shape(_rectangle(middle - stroke / 2, top + height * 0.76, stroke, stroke))
    size = 24.0
    baseline = y + (_BAND + capital_mm(size)) / 2
    page.runs(middle + half + 5, baseline, [("Dry first", HEAVY)], size, white=True)


def _draw_pulls(job: Job, tag: PalletTag, y: float, width: float) -> None:
    """List the pulls over all the room there is, the sum pinned to the label's foot."""
    page = job.page
    left, right = _MARGIN, _MARGIN + width
    foot = job.height - _MARGIN - _TOTAL
    room = foot - y
    pulls = list(tag.pulls)
    shown = len(pulls)
    step = min(_TALLEST_ROW, room / max(1, shown))
    if step < _FLAT_ROW:
        shown = int(room // _FLAT_ROW) - 1
        step = _FLAT_ROW
    for pull in pulls[:shown]:
        page.rule(left, y, right, y)
        if step >= _TALL_ROW:
            _draw_tall(job, pull, y, width, step)
        else:
            _draw_flat(job, pull, y, width)
        y += step
    page.rule(left, y, right, y)
    rest = pulls[shown:]
    if rest:
        said = f"and {len(rest)} more, listed on the screen"
        _draw_row(job, y, width, said, sum(pull.supers for pull in rest))
    page.rule(left, foot, right, foot, 0.7)
    _draw_row(job, foot + 1.5, width, "Supers", tag.supers)


def _draw_tall(job: Job, pull: PulledLine, y: float, width: float, height: float) -> None:
    """Set one pull in two lines: the yard's name, then its code and the day."""
    page = job.page
    large = height * 1.1
    count = format_number(pull.supers)
    size = height * 1.6
    page.text(_MARGIN + width, y + (height + capital_mm(size)) / 2, count, HEAVY, size, 1)
    room = width - width_mm(count, HEAVY, size) - 4
    name = elided(page.typefaces.checked(pull.name, STRONG), STRONG, large, room)
    small = min(11.0, large * 0.8)
    gap = large * 0.11
    top = y + (height - capital_mm(large) - gap - capital_mm(small)) / 2
    baseline = top + capital_mm(large)
    page.text(_MARGIN, baseline, name, STRONG, large)
    below = baseline + gap + capital_mm(small)
    code_room = min(room / 2, code_width_mm(pull.yard, small))
    job.code(pull.yard, _MARGIN, below - capital_mm(small), code_room, small)
    pulled = f"pulled {pull.pulled.isoformat()}"
    page.text(_MARGIN + code_room + 4, below, pulled, TEXT, small)


def _draw_flat(job: Job, pull: PulledLine, y: float, width: float) -> None:
    """Set one pull in one line: code, name, day, supers."""
    page = job.page
    right = _MARGIN + width
    baseline = y + 4.4
    pulled = pull.pulled.isoformat()
    count_room = 15.0
    code_room = min(26.0, code_width_mm(pull.yard, 9))
    job.code(pull.yard, _MARGIN, baseline - capital_mm(9), code_room, 9)
    name_room = width - code_room - count_room - width_mm(pulled, TEXT, 9) - 5
    name = elided(page.typefaces.checked(pull.name, STRONG), STRONG, 9.5, name_room)
    page.text(_MARGIN + code_room + 2.5, baseline, name, STRONG, 9.5)
    page.text(right - count_room, baseline, pulled, TEXT, 9, 1)
    page.text(right, baseline, format_number(pull.supers), HEAVY, 11, 1)


def _draw_row(job: Job, y: float, width: float, said: str, supers: int) -> None:
    page = job.page
    page.text(_MARGIN, y + 4.9, said, STRONG, 10)
    page.text(_MARGIN + width, y + 4.9, format_number(supers), HEAVY, 13, 1)


def _rectangle(x: float, y: float, width: float, height: float) -> list[tuple[float, float]]:
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
