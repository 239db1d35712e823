"""Tags of vessels, equipment and sample pots: the code to scan, the name, a few facts."""

from honeyledger.documents.fonts import HEAVY, STRONG, TEXT
from honeyledger.documents.parts import Job, again_words
from honeyledger.documents.setting import Block
from honeyledger.documents.symbols import QUIET_MODULES, make_symbol
from honeyledger.services.label_forms import PlainTag

_MOST_MODULE_MM = 1.7


def draw_plain_tag(job: Job, tag: PlainTag) -> None:
    """Draw one tag, the QR code at the left and the words beside it."""
    small = job.height < 36
    margin = 2.6 if small else 4.5
    room = min(job.height - (0 if small else margin), job.width * 0.46)
    module = min(_MOST_MODULE_MM, room / 34)
    margin = max(margin, QUIET_MODULES * module if not small else 0)
    symbol = make_symbol(tag.uri or tag.code)
    side = job.symbol(symbol, margin, margin, room, module)
    left = margin + side + max(2.4, margin * 0.8, job.quiet_mm(symbol, side))
    width = job.width - margin - left
    y = margin + job.code(tag.code, left, margin, width, 26) + (1.4 if small else 3)
    large = 9.0 if small else 20 * min(1.6, job.height / 40)
    said = (f"{caption}\u00a0{value}".rstrip() for caption, value in tag.facts)
    blocks = [
        Block(tag.name, HEAVY, large, 6.6, most_lines=2),
        *(Block(one, TEXT, max(7, large * 0.5), 6.2, large * 0.07, 2) for one in said),
        Block(again_words(tag.again), STRONG, 7, 6.2, gap_mm=0.4, most_lines=1),
        Block("" if small else tag.house, STRONG, 8.5, 6.6, gap_mm=2, most_lines=1, spring=True),
    ]
    job.names(blocks, left, y, width, job.height - margin * (0.6 if small else 1) - y)
