"""The label on a drum, tote or pail: its code, weights, make and a box to tick when it is held."""

from honeyledger.documents.fonts import HEAVY, STRONG, TEXT
from honeyledger.documents.parts import FACT_MM, LEAST_FACT_MM, Job
from honeyledger.documents.setting import Block, capital_mm
from honeyledger.documents.symbols import make_symbol
from honeyledger.domain.units import format_colour, format_mass, format_moisture
from honeyledger.services.papers import DrumLabel

_MARGIN = 5.5
_HOLD = 14.5


def draw_drum_label(job: Job, drum: DrumLabel) -> None:
    """Draw one label; weights not yet known leave lines to write on."""
    width = job.width - 2 * _MARGIN
    y = _draw_head(job, drum, width)
    y = _draw_weights(job, drum, y, width)
    job.page.rule(_MARGIN, y, _MARGIN + width, y, 0.4)
    facts = _facts(drum)
    room = job.height - _MARGIN - _HOLD - y - 4.5
    columns = 2 if room >= -(-len(facts) // 2) * FACT_MM else 3
    height = min(FACT_MM, max(LEAST_FACT_MM, room / -(-len(facts) // columns)))
    job.facts(facts, y + 3.5, _MARGIN, columns, height)
    _draw_hold(job, drum.held, job.height - _MARGIN - _HOLD, width)
    job.head(drum.head, _MARGIN)
    job.again(drum.again, _MARGIN)


def _draw_head(job: Job, drum: DrumLabel, width: float) -> float:
    y = _MARGIN
    season_room = 0.0
    if drum.season:
        season_room = 26.0
        season = Block(f"Season {drum.season}", TEXT, 9, 6.6)
        job.line(season, _MARGIN + width, y, season_room - 3, align=1)
    job.name(Block(drum.house, STRONG, 9, 6.6), _MARGIN, y, width - season_room)
    y += capital_mm(9) + 3
    heading = Block(drum.heading, HEAVY, 16, 9, most_lines=2)
    y += job.column([heading], _MARGIN, y, width, 12.5) + 4
    return y + job.code(drum.code, _MARGIN, y, width, 60) + 6


def _draw_weights(job: Job, drum: DrumLabel, y: float, width: float) -> float:
    side = job.symbol(
        make_symbol(drum.uri or drum.code), _MARGIN, y, min(42.0, job.height * 0.28), 1.4
    )
    left = _MARGIN + side + 9
    room = _MARGIN + width - left
    page = job.page
    page.text(left, y + capital_mm(10), "Net", TEXT, 10)
    if drum.net_g is None:
        page.rule(left, y + 15, left + room, y + 15)
    else:
        net = Block(format_mass(drum.net_g, job.unit), HEAVY, 34 if side > 27 else 24, 16)
        job.line(net, left, y + 5, room)
    _draw_weight(job, "Gross", drum.gross_g, left, y + side - 7.5, room)
    _draw_weight(job, "Tare", drum.tare_g, left, y + side, room)
    return y + side + 6


def _draw_weight(
    job: Job, caption: str, grams: int | None, left: float, baseline: float, room: float
) -> None:
    job.page.text(left, baseline, caption, TEXT, 10)
    if grams is None:
        job.page.rule(left + 14, baseline, left + room, baseline)
        return
    weight = format_mass(grams, job.unit)
    job.line(
        Block(weight, STRONG, 14, 8), left + room, baseline - capital_mm(14), room - 14, align=1
    )


def _facts(drum: DrumLabel) -> list[tuple[str, str]]:
    """What is known of the drum, and lines to write on for what is always asked."""
    colour = ""
    if drum.pfund_tenths is not None:
        colour = f"{format_colour(drum.pfund_tenths)} Pfund"
        if drum.colour:
            colour = f"{drum.colour}, {colour}"
    moisture = drum.moisture_hundredths
    known = [
        ("Colour", colour),
        ("Forage", drum.forage),
        ("Origin", drum.origin),
    ]
    filled = drum.filled.isoformat() if drum.filled else ""
    asked = [
        ("Container", drum.container),
        ("Filled", filled),
        ("Run", drum.run),
        ("Moisture", format_moisture(moisture) if moisture is not None else ""),
        ("Seal", ""),  # numbered by whoever closes the bung: a line to write it on
    ]
    return asked + [one for one in known if one[1]]


def _draw_hold(job: Job, held: str, y: float, width: float) -> None:
    """Draw the box to tick, and lines for who held it and why; of what is held it is crossed."""
    page = job.page
    page.rule(_MARGIN, y, _MARGIN + width, y, 0.4)
    box = 10.0
    page.outline(_MARGIN, y + 4, box, box, 0.6)
    if held:
        job.cross(_MARGIN, y + 4, box)
    page.text(_MARGIN + box + 3, y + 4 + (box + capital_mm(15)) / 2, "Hold", HEAVY, 15)
    left = _MARGIN + box + 21
    for number, caption in enumerate(("Why", "Who, when")):
        baseline = y + 8 + number * 6.8
        page.text(left, baseline - 0.4, caption, TEXT, 8)
        page.rule(left + 15, baseline, _MARGIN + width, baseline)
    if held:
        why = Block(held, STRONG, 9, 6.6)
        job.name(why, left + 15, y + 7.2 - capital_mm(9), _MARGIN + width - left - 15)
