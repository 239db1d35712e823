"""A jar's label in parts: front for the shelf, back with all the rest, seal over the lid.

Front and back together say what the whole label says; type is as high as on it.
"""

from honeyledger.documents.fonts import CODE, HEAVY, STRONG, TEXT, width_mm
from honeyledger.documents.jar_label import NO_CAUTION, least_of
from honeyledger.documents.page import code_runs
from honeyledger.documents.parts import Job
from honeyledger.documents.setting import Block, capital_mm, set_column
from honeyledger.documents.symbols import dots_a_module, make_symbol
from honeyledger.domain.refusals import Refusal
from honeyledger.services.papers import JarLabel, net_content, us_content

_MARGIN = 3.4


def draw_jar_front(job: Job, jar: JarLabel) -> None:
    """Name, grade, origin, and the net content over the foot, which is ruled off."""
    least = least_of(job, jar, verified=True)
    wanted = least_of(job, jar, verified=False)
    net = net_content(jar.net_g, us_first=jar.us_first)
    both = us_content(jar.net_g) if jar.us_dual and not jar.us_first else ""
    width, tall = job.width - 2 * _MARGIN, job.height * 0.34
    large = min(34.0, job.height * 0.6)
    foot = [
        Block(net, HEAVY, max(wanted.net, large * 0.55), least.net, 0, 2, leading=1.05),
        Block(both, STRONG, max(wanted.text, 9), least.text, 0.3, 2),
    ]
    net_content_set = set_column(foot, width, tall, job.page.typefaces, job.stock.name)
    top = job.height - _MARGIN - net_content_set.height_mm
    net_content_set.draw(job.page, _MARGIN, top)
    job.page.rule(_MARGIN, top - 0.9, job.width - _MARGIN, top - 0.9, 0.35)
    blocks = [
        Block(jar.product, HEAVY, large, max(8, least.text), 0, 4, leading=1.1),
        Block(jar.grading, STRONG, max(wanted.text, 9), least.text, 0.8, 2),
        Block(jar.origin, TEXT, max(wanted.text, 9), least.text, 0.8, 3, spring=True),
    ]
    job.column(blocks, _MARGIN, _MARGIN - 0.6, width, top - 2.2 - _MARGIN)


def draw_jar_back(job: Job, jar: JarLabel) -> None:
    """Who answers for it, lot, best before, storage, the caution, and the jar's code with its QR.

    Raises:
        Refusal: the caution is missing, or there is no room.
    """
    if not jar.caution.strip():
        raise Refusal(NO_CAUTION, field="caution")
    least = least_of(job, jar, verified=True).text
    larger = min(1.6, max(1.0, job.height * job.width / 2600))
    small = max(least, least_of(job, jar, verified=False).text) * larger
    head, serial = _code_lines(jar.code)
    line = capital_mm(least) + 1.1
    room = min(job.height - 2 * line - 1.0, job.width * 0.4)
    module = 0.6 * larger
    symbol = make_symbol(jar.uri or jar.code)
    side = job.symbol(symbol, _MARGIN, _MARGIN, room, module)
    quiet = job.quiet_mm(symbol, side)
    y = _MARGIN + side + max(2.4, quiet) + capital_mm(least)
    for text in (head, serial):
        job.page.text(_MARGIN, y, text, CODE, least)
        y += line
    left = _MARGIN + max(side + max(3.0, quiet), width_mm(head, CODE, least) + 2.0)
    dated = f"L\u00a0{jar.lot}\u00a0\u00a0\u00a0 {jar.best_before}"
    blocks = [
        Block(jar.producer, STRONG, small, least, 0, 3),
        Block(jar.place, TEXT, small, least, 0, 3),
        Block(dated, TEXT, small, least, 0.8, 3),
        Block(jar.storage, TEXT, small, least, 0.5, 4),
        *(Block(text, TEXT, small, least, 0.5, 4) for text in jar.texts),
        Block(jar.caution, STRONG, small, least, 0.8, 4, spring=True),
    ]
    width = job.width - _MARGIN - left
    job.column(blocks, left, _MARGIN - 0.6, width, job.height - 2 * _MARGIN + 0.9)


def draw_lid_seal(job: Job, jar: JarLabel) -> None:
    """Ends that hold to the glass, the serial and its code over the lid between them."""
    page, third = job.page, job.width / 3
    symbol = make_symbol(jar.code)
    room = min(job.height, third)
    dots = dots_a_module(symbol, room, job.printer.dots_per_inch, 0.5)
    module = dots * 25.4 / job.printer.dots_per_inch
    ink, left = symbol.modules * module, third + 4 * module + 1
    drawn = job.symbol(symbol, left, (job.height - ink) / 2, room, 0.5)
    head, serial = _code_lines(jar.code)
    middle = left + drawn + 4 * module
    width = job.width - _MARGIN - middle
    blocks = [
        Block(serial, CODE, 13, 8, 0, 1),
        Block(head, CODE, 8, 6.2, 0.6, 1),
    ]
    job.column(blocks, middle, job.height / 2 - 4.2, width, 9.5)
    words = [
        Block("Sealed", HEAVY, 12, 8, 0, 1),
        Block(jar.producer, TEXT, 7.5, 6.2, 0.6, 2),
    ]
    job.names(words, _MARGIN, job.height / 2 - 5.2, third - _MARGIN - 1, job.height / 2 + 3)
    for x in (third - 0.6, job.width - 1.6):
        page.rule(x, 1.2, x, job.height - 1.2, 0.15)


def _code_lines(code: str) -> tuple[str, str]:
    """A jar's code before its serial, and the serial with its check character."""
    runs = code_runs(code)
    return runs[0][0].rstrip("-"), "".join(text for text, _ in runs[1:])
