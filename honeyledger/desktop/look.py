"""What everything drawn at this moment has in common: theme, typefaces, and whether things move.

There is one screen style for the whole program, as there is one application; widgets read it when
they paint, so changing the theme needs nothing but a repaint. What is painted for paper, beside
the window's thread, wears a theme of its own and has its own fonts: Qt's are for one thread.
"""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path

from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontMetricsF

from honeyledger.desktop import tokens
from honeyledger.desktop.tokens import Density, Theme, Type

SANS = "Honeyledger Sans"
MONO = "Honeyledger Mono"


@dataclass(frozen=True, slots=True)
class Look:
    """The theme in use and whether motion is wanted."""

    theme: Theme = tokens.LIGHT
    moving: bool = True


_NOW = [Look()]
_ON_PAPER = threading.local()


def now() -> Look:
    """The look in use."""
    return _NOW[0]


def theme() -> Theme:
    """The theme in use."""
    worn: Theme | None = getattr(_ON_PAPER, "theme", None)
    return worn or _NOW[0].theme


@contextmanager
def worn(wanted: Theme) -> Iterator[None]:
    """Paint in this theme in this thread, whatever the window wears meanwhile."""
    before: Theme | None = getattr(_ON_PAPER, "theme", None)
    _ON_PAPER.theme = wanted
    try:
        yield
    finally:
        _ON_PAPER.theme = before


@contextmanager
def on_paper() -> Iterator[None]:
    """Paint light in this thread, whatever the window wears meanwhile."""
    with worn(tokens.LIGHT):
        yield


def change(*, to: Theme | None = None, moving: bool | None = None) -> None:
    """Change the look; `style.wear` calls this and repaints, widgets never do."""
    look = _NOW[0]
    if to is not None:
        look = replace(look, theme=to)
    if moving is not None:
        look = replace(look, moving=moving)
    _NOW[0] = look


def duration(ms: int) -> int:
    """So many milliseconds, or none where the person has asked for reduced motion."""
    return ms if _NOW[0].moving else 0


@cache
def _qcolour(value: str) -> QColor:
    return QColor(value)


def colour(name: str) -> QColor:
    """A colour by its token (`ink2`) or, for honey, by its value (`#D1972A`)."""
    if name.startswith("#"):
        return _qcolour(name)
    return _qcolour(getattr(theme(), name))


def load_typefaces(folder: Path) -> None:
    """Give Qt the program's own typefaces; text would change width with the machine's fonts.

    Raises:
        FileNotFoundError: a typeface is missing or cannot be read.
    """
    files = sorted(folder.glob("*.ttf"))
    families: set[str] = set()
    for file in files:
        number = QFontDatabase.addApplicationFont(str(file))
        families.update(QFontDatabase.applicationFontFamilies(number))
    for family in (SANS, MONO):
        if family not in families:
            raise FileNotFoundError(f"The typeface {family} is not in {folder}.")


def font(
    kind: Type,
    density: Density = Density.FLOOR,
    *,
    weight: int | None = None,
    mono: bool = False,
) -> QFont:
    """The font of one kind of type, with figures of one width."""
    return _font(threading.get_ident(), kind, density, weight, mono)


@cache
def _font(_thread: int, kind: Type, density: Density, weight: int | None, mono: bool) -> QFont:
    size = tokens.type_size(kind, density)
    made = QFont(MONO if mono else SANS)
    made.setPixelSize(size.px)
    made.setWeight(QFont.Weight(size.weight if weight is None else weight))
    made.setStyleStrategy(QFont.StyleStrategy.PreferAntialias)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    if not mono:
        made.setFeature(QFont.Tag("tnum"), 1)
    measures = _OWN_METRICS[id(made)] = QFontMetricsF(made)
    if mono:
        _OF_A_LETTER[id(made)] = measures.horizontalAdvance("0")
    return made


# Of the fonts kept above, by which object each is: a font's own key is a text that Qt makes anew
# every time, and took as long as measuring. Of any other font by that key.
_OWN_METRICS: dict[int, QFontMetricsF] = {}
_METRICS: dict[tuple[int, str], QFontMetricsF] = {}
_OF_A_LETTER: dict[int, float] = {}
_LONGEST_KEPT = 40
"""Of a text, in letters: words come again, whole sentences hardly do."""


def forget_fonts() -> None:
    """Let go of fonts and their measures: they are the application's in which they were made."""
    _font.cache_clear()
    _OWN_METRICS.clear()
    _METRICS.clear()
    _OF_A_LETTER.clear()
    _own_advance.cache_clear()


def metrics(made: QFont) -> QFontMetricsF:
    """The measures of a font, kept, because measuring is asked for at every paint."""
    own = _OWN_METRICS.get(id(made))
    if own is not None:
        return own
    key = threading.get_ident(), made.key()
    found = _METRICS.get(key)
    if found is None:
        found = _METRICS[key] = QFontMetricsF(made)
    return found


def advance(text: str, made: QFont) -> float:
    """How wide a text is.

    In the companion for codes each letter takes the same: a long table measures thousands of codes
    in many parts each, and asking Qt for every part held the window. Of the others words are kept:
    a page asks for the same thousand again and again.
    """
    of_a_letter = _OF_A_LETTER.get(id(made))
    if of_a_letter is not None and text.isascii() and text.isprintable():
        return of_a_letter * len(text)
    if len(text) <= _LONGEST_KEPT and id(made) in _OWN_METRICS:
        return _own_advance(id(made), text)
    return metrics(made).horizontalAdvance(text)


@lru_cache(maxsize=16_384)
def _own_advance(made: int, text: str) -> float:
    return _OWN_METRICS[made].horizontalAdvance(text)
