"""The code of a yard, for its pull sheet or its gate: scanned on the dock, it begins a receipt."""

from honeyledger.documents.fonts import HEAVY, STRONG, TEXT
from honeyledger.documents.parts import Job, again_words
from honeyledger.documents.setting import Block
from honeyledger.documents.symbols import QUIET_MODULES, make_symbol
from honeyledger.services.papers import YardSheetTag


def draw_yard_code(job: Job, yard: YardSheetTag) -> None:
    """Draw one code: beside its words on a wide label, above them on a tall one."""
    symbol = make_symbol(yard.uri or yard.code)
    wide = job.width > job.height
    # The margin holds the quiet zone, so that the ink of the QR code lines up with the words.
    module = 1.75 if wide else 2.5
    margin = QUIET_MODULES * module
    room = min(job.height, job.width * 0.5) if wide else min(job.width, job.height * 0.5)
    side = job.symbol(symbol, margin, margin, room, module)
    left = margin + side + margin if wide else margin
    top = margin if wide else 2 * margin + side
    room = job.width - margin - left
    y = top + job.code(yard.code, left, top, room, 60) + 4
    blocks = [
        Block(yard.name, HEAVY, 22, 10, most_lines=3),
        Block(yard.place, TEXT, 11, 7, gap_mm=1.5, most_lines=2),
        Block(yard.due, STRONG, 10, 7, gap_mm=2.5, most_lines=4),
        Block(again_words(yard.again), TEXT, 8, 6.6, gap_mm=1.2, most_lines=1),
        Block(yard.house, STRONG, 9, 7, gap_mm=2.5, most_lines=1, spring=True),
    ]
    job.names(blocks, left, y, room, job.height - margin - y)
