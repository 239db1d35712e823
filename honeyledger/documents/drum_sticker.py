"""The sticker on a drum's lid: its code to scan from above, net, crop year, and a hold mark."""

from honeyledger.documents.fonts import HEAVY, STRONG, TEXT
from honeyledger.documents.parts import Job, again_words
from honeyledger.documents.setting import Block
from honeyledger.documents.symbols import make_symbol
from honeyledger.domain.units import format_mass, format_moisture
from honeyledger.services.papers import DrumLabel

_MARGIN = 4.5
_BOX = 5.0


def draw_drum_sticker(job: Job, drum: DrumLabel) -> None:
    """Draw one sticker; what is not known yet is left out, since the label has its lines."""
    room = min(job.height - _MARGIN, job.width * 0.42)
    symbol = make_symbol(drum.uri or drum.code)
    side = job.symbol(symbol, _MARGIN, _MARGIN, room, 1.7)
    left = _MARGIN + side + max(4.5, job.quiet_mm(symbol, side))
    width = job.width - _MARGIN - left
    y = _MARGIN + job.code(drum.code, left, _MARGIN, width, 26) + 2
    net = format_mass(drum.net_g, job.unit) if drum.net_g is not None else ""
    moisture = drum.moisture_hundredths
    facts = [f"Season\u00a0{drum.season}" if drum.season else ""]
    facts.append(f"moisture\u00a0{format_moisture(moisture)}" if moisture is not None else "")
    facts += [drum.colour, f"· {again_words(drum.again)}" if drum.again else ""]
    large = 20 * min(1.7, job.height / 40)
    foot = job.height - _MARGIN - _BOX
    blocks = [
        Block(net, HEAVY, large, 9, most_lines=1),
        Block("  ".join(one for one in facts if one), TEXT, large * 0.5, 6.6, 0.6, 3),
        Block(drum.house, STRONG, 8, 6.6, gap_mm=0.6, most_lines=1),
    ]
    job.names(blocks, left, y, width, foot - y - 0.5)
    job.page.outline(left, foot, _BOX, _BOX, 0.45)
    if drum.held:
        job.cross(left, foot, _BOX)
    job.page.text(left + _BOX + 1.8, foot + _BOX - 1.2, "Hold", HEAVY, 10)
