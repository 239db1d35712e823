"""The program's own words that stand in the ledger as plain text, in the language in use.

A reason is sealed as it was typed, and so is one that the program made of a treatment: what is
sealed never changes with the language of a window. What the program made is known again by its
template and said in the language in use; what a person typed is shown as it was typed.
"""

import re
from functools import lru_cache
from string import Formatter

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

from honeyledger.desktop.months import day_in_words

_CONTEXT = "words"
_TEMPLATES = (
    str(QT_TRANSLATE_NOOP(_CONTEXT, "treated with {text} on {day} with supers on")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "treated with {text} on {day}, not clear until {until}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "treated with {text} on {day}, not out yet, then {interval}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "treated with {text} on {day}, not out yet")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "treated with {text} on {day}, out on {until}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "{text} found off on {check} since {moment}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "{text} found off on {check}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "{text} found off since {moment}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "fed {mass} of {text} on {day} with supers on")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "fed {text} on {day} with supers on")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "{codes} and {n} more")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "{n} missing")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "{n} too many")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "to {day}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "on, until someone releases them")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "the farm gate of {day}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "found: source not known")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "source not known")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, ", by a value from memory")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "at most {limit}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "at least {limit}")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "the result does not say")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "say what kind of honey it is")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "it depends on what was not measured")),
)
_DAY = r"\d{1,2} [A-Z][a-z]{2} \d{4}"
_PLACES = {
    "day": _DAY,
    "until": _DAY,
    "n": r"\d+",
    "mass": r"[\d\u202f.]+ (?:kg|lb)",
    "limit": r"\d+(?:\.\d+)?(?: [^\s]{1,6})?",
    "codes": r"[^,]+(?:, [^,]+)+",
    "text": r".+",
    "check": r".+",
    "interval": r"\d+ .+",
    "moment": rf"{_DAY} \d\d:\d\d(?:[+-]\d\d:\d\d)?",
}
# Words that stand by their key: kinds of records, of tanks, of labels, what is read of honey.
_WORDS = (
    str(QT_TRANSLATE_NOOP("facts", "house")),
    str(QT_TRANSLATE_NOOP("facts", "yard")),
    str(QT_TRANSLATE_NOOP("facts", "vessel")),
    str(QT_TRANSLATE_NOOP("facts", "drum")),
    str(QT_TRANSLATE_NOOP("facts", "equipment")),
    str(QT_TRANSLATE_NOOP("facts", "operator")),
    str(QT_TRANSLATE_NOOP("facts", "product")),
    str(QT_TRANSLATE_NOOP("facts", "customer")),
    str(QT_TRANSLATE_NOOP("facts", "supplier")),
    str(QT_TRANSLATE_NOOP("facts", "box")),
    str(QT_TRANSLATE_NOOP("facts", "room")),
    str(QT_TRANSLATE_NOOP("facts", "stock")),
    str(QT_TRANSLATE_NOOP("facts", "shift")),
    str(QT_TRANSLATE_NOOP("facts", "moisture")),
    str(QT_TRANSLATE_NOOP("facts", "colour")),
    str(QT_TRANSLATE_NOOP("facts", "temperature")),
    str(QT_TRANSLATE_NOOP("facts", "humidity")),
    str(QT_TRANSLATE_NOOP("facts", "line")),
    str(QT_TRANSLATE_NOOP("facts", "tank")),
    str(QT_TRANSLATE_NOOP("facts", "sump")),
    str(QT_TRANSLATE_NOOP("facts", "drainer")),
    str(QT_TRANSLATE_NOOP("facts", "melter")),
    str(QT_TRANSLATE_NOOP("facts", "tote")),
    str(QT_TRANSLATE_NOOP("facts", "pail")),
    str(QT_TRANSLATE_NOOP("facts", "pallet tag")),
    str(QT_TRANSLATE_NOOP("facts", "drum label")),
    str(QT_TRANSLATE_NOOP("facts", "jar label")),
    str(QT_TRANSLATE_NOOP("facts", "case or pallet label")),
    str(QT_TRANSLATE_NOOP("facts", "retail code")),
    str(QT_TRANSLATE_NOOP("facts", "yard sheet code")),
    str(QT_TRANSLATE_NOOP("facts", "badge")),
    str(QT_TRANSLATE_NOOP("facts", "hot room")),
    str(QT_TRANSLATE_NOOP("facts", "drum room")),
    str(QT_TRANSLATE_NOOP("facts", "store")),
    str(QT_TRANSLATE_NOOP("facts", "scale")),
    str(QT_TRANSLATE_NOOP("facts", "refractometer")),
    str(QT_TRANSLATE_NOOP("facts", "sieve")),
    str(QT_TRANSLATE_NOOP("facts", "magnet")),
    str(QT_TRANSLATE_NOOP("facts", "thermometer")),
    str(QT_TRANSLATE_NOOP("facts", "supers")),
    str(QT_TRANSLATE_NOOP("facts", "drums")),
    str(QT_TRANSLATE_NOOP("facts", "jars")),
    str(QT_TRANSLATE_NOOP("facts", "white")),
    str(QT_TRANSLATE_NOOP("facts", "cream")),
    str(QT_TRANSLATE_NOOP("facts", "yellow")),
    str(QT_TRANSLATE_NOOP("facts", "orange")),
    str(QT_TRANSLATE_NOOP("facts", "pink")),
    str(QT_TRANSLATE_NOOP("facts", "red")),
    str(QT_TRANSLATE_NOOP("facts", "light green")),
    str(QT_TRANSLATE_NOOP("facts", "green")),
    str(QT_TRANSLATE_NOOP("facts", "light blue")),
    str(QT_TRANSLATE_NOOP("facts", "blue")),
    str(QT_TRANSLATE_NOOP("facts", "kraft")),
    str(QT_TRANSLATE_NOOP("facts", "grey")),
)


def sealed_words(text: str) -> str:
    """A text of the ledger: said again where the program made it, else as it is."""
    found = _found(text)
    if found is None:
        return day_in_words(text)
    template, facts = found
    words = QCoreApplication.translate(_CONTEXT, template)
    return words.format(**{name: day_in_words(said) for name, said in facts})


@lru_cache(maxsize=4_096)
def _found(text: str) -> tuple[str, tuple[tuple[str, str], ...]] | None:
    """The template a text was made of, and what filled it; the same reasons come again and again.

    Not the words themselves, which change with the language.
    """
    for template, pattern in _PATTERNS:
        if found := pattern.fullmatch(text):
            return template, tuple(found.groupdict().items())
    return None


def _pattern(template: str) -> re.Pattern[str]:
    pattern = ""
    for plain, name, _spec, _conversion in Formatter().parse(template):
        pattern += re.escape(plain)
        if name is not None:
            pattern += f"(?P<{name}>{_PLACES[name]})"
    return re.compile(pattern)


_PATTERNS = tuple((template, _pattern(template)) for template in _TEMPLATES)
