"""Papers as they were last looked at: `python -m tests.support.golden` renews all that changed.

Words and the place of each line and symbol hold everywhere; the bytes hold where the same versions
of what writes them are at work. Look at what changed before renewing.
"""

import hashlib
import re
import sys
import zlib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import zip_longest
from pathlib import Path

import numpy as np
import pypdfium2
import reportlab
from numpy.typing import NDArray

from honeyledger.documents.labels import jar_fronts
from honeyledger.documents.stock import Stock, plain_printer
from honeyledger.services.label_forms import JAR_FRONT, in_form
from tests.support import printing
from tests.support.office_papers import NAMES, office_papers
from tests.support.reading import READ

FOLDER = Path(__file__).resolve().parents[1] / "data" / "papers"
BYTES = FOLDER / "bytes.txt"
# A jar's front has no code, and so is not among what is read.
LABELS = {**READ, JAR_FRONT: (jar_fronts, in_form([printing.jar_label()], JAR_FRONT)[0])}
KINDS = (*LABELS, *NAMES)
RENEW = "look at it, then renew with: python -m tests.support.golden"
MM = 25.4 / 72
# Readers of PDFs measure glyphs each in their own way, and both sides are rounded to 0.1 mm.
LEEWAY_MM = 0.15
_PLACED = re.compile(r"( *-?\d+\.\d){4} ")
# A ledger's head is another as soon as anything about its entries is; the bytes tell of it.
_HEADS = ((r"\b\d+ [0-9A-F]{12}\b", "HEAD"), (r"\d+, [0-9A-F]{4} [0-9A-F]{4} [0-9A-F]{4}", "HEAD"))


def platform() -> str:
    """What decides the bytes of a PDF besides this program."""
    version = ".".join(str(part) for part in sys.version_info[:2])
    return f"{sys.platform}, Python {version}, reportlab {reportlab.__version__}, zlib " + (
        zlib.ZLIB_RUNTIME_VERSION
    )


def stocks_of(kind: str) -> tuple[Stock, ...]:
    """The shipped stocks that carry a kind of label."""
    return printing.stocks().fitting(kind)


def drawn() -> Iterator[tuple[str, str, bytes]]:
    """Each paper: its kind, what it is on, and its PDF; labels are on every stock there is."""
    for kind, (draw, row) in LABELS.items():
        for stock in stocks_of(kind):
            pdf = draw([row], stock, plain_printer(stock), printing.typefaces())
            yield kind, stock.name, pdf
    for kind, pdf in office_papers():
        yield kind, "", pdf


@cache
def papers() -> Mapping[str, Mapping[str, bytes]]:
    """The papers as they are drawn now: by kind and by what they are on."""
    found: dict[str, dict[str, bytes]] = {}
    for kind, where, pdf in drawn():
        found.setdefault(kind, {})[where] = pdf
    return found


def seen(pdf: bytes) -> Iterator[str]:
    """What stands where: left, top, right and bottom in mm of each line, as a reader takes them.

    Symbols come last, with how many modules they have on a side; they are read elsewhere.
    """
    with pypdfium2.PdfDocument(pdf) as document:
        for number, page in enumerate(document, 1):
            yield page_line(number, page)
            high, text = page.get_size()[1], page.get_textpage()
            for at in range(text.count_rects()):
                box = text.get_rect(at)
                yield placed_line(box, high, text.get_text_bounded(*box))
    for one in printing.placed_symbols(pdf):
        side = one.side * one.module
        box = one.x, one.y, one.x + side, one.y + side
        yield placed_line(box, high, f"[symbol of {one.side}]")
    for box in printing.placed_bars(pdf):
        yield placed_line(box, high, "[bars]")


def page_line(number: int, page: pypdfium2.PdfPage) -> str:
    """Which page begins, and how large it is."""
    wide, high = page.get_size()
    return f"page {number}: {wide * MM:.1f} × {high * MM:.1f} mm"


def placed_line(box: Sequence[float], high: float, words: str) -> str:
    """Where words stand from the upper left of a page of this height, in points."""
    left, bottom, right, top = box
    for pattern, word in _HEADS:
        words = re.sub(pattern, word, words)
    said = " ".join(words.replace("\ufffe", "-").split())
    sides = (left, high - top, right, high - bottom)
    return " ".join(f"{side * MM:5.1f}" for side in sides) + f"  {said}"


def luminance(picture: NDArray[np.uint8]) -> NDArray[np.float64]:
    """Relative luminance of each dot of a picture in sRGB, red first (IEC 61966-2-1)."""
    value = picture.astype(float) / 255
    linear = np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)
    return np.asarray(linear @ [0.2126, 0.7152, 0.0722])


def sheet(kind: str) -> list[str]:
    """All that is kept of a kind of paper, as lines."""
    lines = []
    for where, pdf in papers()[kind].items():
        lines += [f"on {where}"] if where else []
        lines += seen(pdf)
    return lines


def file_of(kind: str) -> Path:
    """Where the lines of a kind are kept."""
    return FOLDER / f"{kind.replace(' ', '-')}.txt"


def kept(kind: str) -> list[str]:
    """The lines of a kind as they were when it was last looked at."""
    file = file_of(kind)
    return file.read_text("utf-8").splitlines() if file.is_file() else []


def first_difference(kind: str, was: Sequence[str], now: Sequence[str], renew: str = RENEW) -> str:
    """What is first another on a paper, in words; "" where all stands as it stood."""
    on = ""
    for number, (before, after) in enumerate(zip_longest(was, now, fillvalue="nothing"), 1):
        if not _alike(before, after):
            there = file_of(kind).name
            return f"{kind}{on}: was {before!r} ({there}, line {number}), is {after!r}: {renew}"
        if before.startswith(("on ", "page ")):
            on = f", {before}" if before.startswith("on ") else on
    return ""


def _alike(before: str, after: str) -> bool:
    if before == after:
        return True
    places = _PLACED.match(before), _PLACED.match(after)
    if None in places:
        return False
    (first, words), (second, others) = (
        (placed.group().split(), line[placed.end() :])
        for placed, line in zip(places, (before, after), strict=True)
        if placed
    )
    near = all(
        abs(float(one) - float(other)) < LEEWAY_MM
        for one, other in zip(first, second, strict=True)
    )
    return near and words == others


def digests() -> dict[str, str]:
    """A fingerprint of each paper's bytes, by what it is called."""
    return {
        f"{kind} on {where}" if where else kind: hashlib.sha256(pdf).hexdigest()
        for kind, on in papers().items()
        for where, pdf in on.items()
    }


def kept_digests() -> tuple[str, dict[str, str]]:
    """Where the fingerprints were taken, and each by what it is of."""
    where, *lines = BYTES.read_text("utf-8").splitlines()
    parts = (line.partition("  ") for line in lines)
    return where, {name: digest for digest, _, name in parts}


def main() -> None:
    """Keep all papers as they are now, and say which changed."""
    FOLDER.mkdir(exist_ok=True)
    for file in set(FOLDER.glob("*.txt")) - {BYTES, *map(file_of, papers())}:
        file.unlink()
        sys.stdout.write(f"{file.stem}: no longer drawn\n")
    for kind in papers():
        if said := first_difference(kind, kept(kind), sheet(kind)):
            sys.stdout.write(
                said.rpartition(": ")[0].removesuffix(": look at it, then renew with")
            )
            sys.stdout.write("\n")
            file_of(kind).write_text("\n".join(sheet(kind)) + "\n", "utf-8")
    lines = [platform(), *(f"{digest}  {name}" for name, digest in digests().items())]
    BYTES.write_text("\n".join(lines) + "\n", "utf-8")


if __name__ == "__main__":
    main()
