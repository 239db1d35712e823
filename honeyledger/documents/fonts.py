"""The typefaces on paper: loads them, measures text, breaks it into lines.

A sign that a typeface lacks is refused here, because the PDF writer would leave it out in silence.
"""

import re
import unicodedata
from functools import lru_cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from honeyledger.domain.refusals import Refusal, Sentence

MISSING_TYPEFACE = Sentence(
    "missing-typeface", "The typeface {file} is missing: install the program again."
)
MISSING_SIGN = Sentence(
    "missing-sign",
    'Labels and papers cannot print "{sign}" ({number}) in "{text}": write it without that sign.',
)

TEXT = "HoneyledgerSans-Regular"
STRONG = "HoneyledgerSans-SemiBold"
HEAVY = "HoneyledgerSans-Bold"
CODE = "HoneyledgerMono-Regular"
CODE_HEAVY = "HoneyledgerMono-Bold"

POINTS_PER_MM = 72 / 25.4
# Of the size of type, in both families: height of a capital or figure, and of a small x.
CAPITAL = 0.698
SMALL_X = 0.516
LEADING = 1.2

# A line may break at any blank but that between a figure and its unit.
_BREAKS = re.compile(r"(?<![0-9]) | (?!(?:%|g|kg|lb|oz|mm)(?:\W|$))")
_HYPHENS = re.compile(r"(?<=[^\W\d])-(?=[^\W\d])")
# No-break spaces are not among them: they are there to hold.
_BLANKS = re.compile("[ \t\r\n\f\v]+")


class Typefaces:
    """The bundled typefaces, loaded from the folder that holds them and known to the PDF writer.

    Raises:
        Refusal: a file is missing.
    """

    def __init__(self, folder: Path) -> None:
        self._signs: dict[str, frozenset[int]] = {}
        for name in (TEXT, STRONG, HEAVY, CODE, CODE_HEAVY):
            path = folder / f"{name}.ttf"
            if not path.is_file():
                raise Refusal(MISSING_TYPEFACE, file=path.name)
            font = TTFont(name, str(path))
            pdfmetrics.registerFont(font)
            self._signs[name] = frozenset(font.face.charToGlyph)

    def checked(self, text: str, face: str) -> str:
        """Give the text as it will be printed: composed signs, single blanks, no line ends.

        Raises:
            Refusal: the typeface lacks one of its signs.
        """
        printed = _BLANKS.sub(" ", unicodedata.normalize("NFC", text)).strip(" ")
        signs = self._signs[face]
        for sign in printed:
            if ord(sign) not in signs:
                raise Refusal(MISSING_SIGN, sign=sign, number=_called(sign), text=printed)
        return printed


def _called(sign: str) -> str:
    """What Unicode calls a sign, and its number: not every screen can show it either."""
    name = unicodedata.name(sign, "").lower()
    number = f"U+{ord(sign):04X}"
    return f"{name}, {number}" if name else number


def width_mm(text: str, face: str, size_pt: float) -> float:
    """Measure a line of text; the typefaces must have been loaded."""
    return 0.001 * size_pt * _thousandths(text, face) / POINTS_PER_MM


@lru_cache(maxsize=8192)
def _thousandths(text: str, face: str) -> float:
    """Width in thousandths of the size: the same line is tried at many sizes before it is set."""
    return float(pdfmetrics.stringWidth(text, face, 1000))


def words(text: str) -> list[str]:
    """Part a text where its lines may break."""
    return _BREAKS.split(text)


def wrapped(text: str, face: str, size_pt: float, room_mm: float) -> list[str]:
    """Break a text into lines no wider than the room, at blanks, or inside a word too long."""
    lines = [""]
    for word in words(text):
        longer = f"{lines[-1]} {word}" if lines[-1] else word
        if width_mm(longer, face, size_pt) <= room_mm:
            lines[-1] = longer
            continue
        if lines[-1]:
            lines.append("")
        while width_mm(word, face, size_pt) > room_mm and len(word) > 1:
            head = _head(word, face, size_pt, room_mm)
            lines[-1] = head
            lines.append("")
            word = word[len(head) :]
        lines[-1] = word
    return lines


def elided(text: str, face: str, size_pt: float, room_mm: float) -> str:
    """Leave out the middle of a name where the line has no room for all of it."""
    if width_mm(text, face, size_pt) <= room_mm:
        return text
    for kept in range(len(text) - 1, 0, -1):
        head = text[: (kept + 1) // 2].rstrip()
        tail = text[len(text) - kept // 2 :].lstrip()
        shorter = f"{head}…{tail}"
        if width_mm(shorter, face, size_pt) <= room_mm:
            return shorter
    return "…"


def _head(word: str, face: str, size_pt: float, room_mm: float) -> str:
    """Give what of a long word a line holds, up to a hyphen between letters where there is one."""
    length = 1
    while width_mm(word[: length + 1], face, size_pt) <= room_mm:
        length += 1
    hyphens = [at.end() for at in _HYPHENS.finditer(word) if at.end() <= length]
    return word[: hyphens[-1] if hyphens else length]
