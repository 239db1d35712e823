"""Square symbols as the floor needs them: QR codes, and how large a module is.

The quiet zone of four modules is part of the symbol and is drawn white, so that ink right outside
it does no harm. Sizes are in printer dots; what is drawn around the symbol is not known here.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from qrcode import constants
from qrcode.main import QRCode
from qrcode.util import QRData

from honeyledger.domain.refusals import Refusal, Sentence

NOT_IN_CAPITALS = Sentence(
    "not-in-capitals",
    "A label's QR code cannot hold {text}: use capitals, figures and . - / : only.",
)
TOO_LONG_FOR_QR = Sentence(
    "too-long-for-qr", "{text} is too long for a label's QR code: use a shorter web address."
)
NO_ROOM_FOR_QR = Sentence(
    "no-room-for-qr",
    "The code of {text} needs {needed} mm and the label has {room} mm for it: take a larger "
    "label, a finer printer or a shorter web address.",
)

QUIET_MODULES = 4
LEAST_DOTS = 3
# Common practice, no source: smaller modules are lost on rough card and by hand scanners.
LEAST_MODULE_MM = 0.25
# What version 10 holds at level M (ISO/IEC 18004); a longer address belongs on no label.
MOST_SIGNS = 311

# From the most: a code of ten signs has room for H beside it, a jar's for Q.
_MORE = (constants.ERROR_CORRECT_H, constants.ERROR_CORRECT_Q)
_ALPHANUMERIC = re.compile(r"[0-9A-Z $%*+\-./:]+")


@dataclass(frozen=True, slots=True)
class Symbol:
    """A QR code or another square symbol: its text and its black runs, without the quiet zone.

    Args:
        text: what a reader will give.
        modules: how many modules the symbol has on a side, quiet zone left out.
        mask: number of the mask pattern used; 0 where the symbol has none.
        runs: every black run as column, row and length, in modules from the top left corner.
    """

    text: str
    modules: int
    mask: int
    runs: tuple[tuple[int, int, int], ...]

    @property
    def modules_with_quiet(self) -> int:
        """How many modules it takes on a side with its quiet zone."""
        return self.modules + 2 * QUIET_MODULES


def make_symbol(text: str, mask: int | None = None) -> Symbol:
    """Make the QR code of a code or of a web address in capitals (ISO/IEC 18004).

    The version is the smallest that holds the text at level M, and the level then the highest
    that this version has room for: more of the symbol may be lost, and no module is smaller. Any
    mask gives a valid symbol; without one the best is sought, which takes some eight times as
    long.

    Raises:
        Refusal: the text has signs outside the alphanumeric set, or is too long.
    """
    if not _ALPHANUMERIC.fullmatch(text):
        raise Refusal(NOT_IN_CAPITALS, text=text)
    if len(text) > MOST_SIGNS:
        raise Refusal(TOO_LONG_FOR_QR, text=text)
    code = QRCode(error_correction=constants.ERROR_CORRECT_M, mask_pattern=mask)
    code.add_data(QRData(text))
    version = code.best_fit()
    for level in _MORE:
        code.error_correction = level
        if code.best_fit() == version:
            break
    else:
        code.error_correction = constants.ERROR_CORRECT_M
    code.version = version
    if mask is None:
        mask = code.best_mask_pattern()
        code.mask_pattern = mask
    code.make(fit=False)
    return Symbol(text, len(code.modules), mask, black_runs(code.modules))


def dots_a_module(symbol: Symbol, room_mm: float, dots_per_inch: int, most_mm: float) -> int:
    """Find the most printer dots a module may have so that the symbol fits the room.

    Args:
        room_mm: side of the square that the symbol and its quiet zone may take.
        most_mm: modules need be no larger than this.

    Raises:
        Refusal: the room is too small for three dots a module.
    """
    dots_per_mm = dots_per_inch / 25.4
    least = max(LEAST_DOTS, -int(-LEAST_MODULE_MM * dots_per_mm // 1))
    most = max(least, int(most_mm * dots_per_mm))
    dots = min(most, int(room_mm * dots_per_mm) // symbol.modules_with_quiet)
    if dots < least:
        needed = symbol.modules_with_quiet * least / dots_per_mm
        raise Refusal(
            NO_ROOM_FOR_QR, text=symbol.text, needed=f"{needed:.1f}", room=f"{room_mm:.1f}"
        )
    return dots


def black_runs(modules: Sequence[Sequence[bool | None]]) -> tuple[tuple[int, int, int], ...]:
    """Every black run of a matrix as column, row and length."""
    found: list[tuple[int, int, int]] = []
    for row, line in enumerate(modules):
        column = 0
        for black, run in groupby(line):
            length = len(list(run))
            if black:
                found.append((column, row, length))
            column += length
    return tuple(found)
