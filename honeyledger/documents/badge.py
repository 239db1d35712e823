"""A person's badge: scanned at any station, it says who works there."""

from honeyledger.documents.fonts import HEAVY, STRONG, TEXT
from honeyledger.documents.parts import Job, again_words
from honeyledger.documents.setting import Block
from honeyledger.documents.symbols import QUIET_MODULES, make_symbol
from honeyledger.services.papers import Badge

# Read at arm's length off a chest: larger modules than on a jar.
_MODULE_MM = 1.4
_MARGIN = 4.5


def draw_badge(job: Job, badge: Badge) -> None:
    """Draw one badge: the code beside name and work on a wide one, above them on a tall one."""
    symbol = make_symbol(badge.code)
    wide = job.width > job.height
    margin = max(_MARGIN, QUIET_MODULES * _MODULE_MM)
    room = min(job.height, job.width * 0.45) if wide else min(job.width, job.height * 0.5)
    side = job.symbol(symbol, margin, margin, room, _MODULE_MM)
    left = 2 * margin + side if wide else margin
    top = margin if wide else 2 * margin + side
    room = job.width - margin - left
    blocks = [
        Block(badge.name, HEAVY, 24, 9, most_lines=3),
        Block(badge.role, TEXT, 13, 7, gap_mm=1.5, most_lines=2),
        Block(again_words(badge.again), TEXT, 8, 6.2, gap_mm=0.8, most_lines=1),
        Block(badge.house, STRONG, 9, 6.6, gap_mm=2.5, most_lines=1, spring=True),
    ]
    foot = 5.0
    job.names(blocks, left, top, room, job.height - margin - foot - top)
    job.code(badge.code, left, job.height - margin - 2.8, room, 11)
