"""The colour of label paper, and whether a code printed black on it can be read.

A scanner needs dark and light to be far enough apart: the paper's share of light given back, less
the ink's. Lasers and many imagers see by red light near 660 nm, phones by what an eye sees; the
worse of the two counts. The grades are those of symbol contrast in ISO/IEC 15415 and 15416, from
memory: 70 % is the best, 40 the third, and below 20 a symbol fails.
"""

import re

from honeyledger.domain.refusals import Refusal, Sentence

WHITE = "white"
# About what label papers of these names look like, by eye; common practice, no source.
COLOURS = {
    WHITE: "#FFFFFF",
    "cream": "#FFF4D6",
    "yellow": "#FFE24D",
    "orange": "#FF9A3C",
    "pink": "#FFB3C7",
    "red": "#D8362A",
    "light green": "#C6EFC0",
    "green": "#5DBB63",
    "light blue": "#BFE0FF",
    "blue": "#4A90D9",
    "kraft": "#C9A36B",
    "grey": "#9A9A9A",
}
# Toner and thermal black; common practice, no source.
INK_PERCENT = 5
LEAST_PERCENT, SURE_PERCENT = 20, 40

NO_SUCH_COLOUR = Sentence(
    "no-such-paper-colour",
    "{text} is no colour of paper known here: choose one of {names}, or give it as #RRGGBB.",
)
_HEX = re.compile(r"#[0-9a-f]{6}", re.IGNORECASE)


def parse_paper_colour(text: str) -> str:
    """Read a colour of paper: a name of the list, or #RRGGBB; white where nothing is said.

    Raises:
        Refusal: it is neither.
    """
    name = " ".join(text.split()).casefold() or WHITE
    if name in COLOURS:
        return name
    if _HEX.fullmatch(name):
        return name.upper()
    raise Refusal(NO_SUCH_COLOUR, field="colour", text=text.strip(), names=", ".join(COLOURS))


def contrast_percent(colour: str) -> int:
    """How far black on a paper of this colour stands out, by the light that shows it worst."""
    shown = COLOURS.get(colour, colour)
    red, green, blue = (_linear(int(shown[at : at + 2], 16) / 255) for at in (1, 3, 5))
    # Relative luminance of sRGB (IEC 61966-2-1, by the primaries of ITU-R BT.709).
    seen = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return max(0, round(100 * min(red, seen)) - INK_PERCENT)


def _linear(value: float) -> float:
    """Light of a value of sRGB."""
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)
