"""Words of projections as stored: places, subjects and names of marks, in short forms.

A drum's place stands in a row of each table for all that ever happened to the drum, and most of
"drum/D28-0691-4" says nothing new: the class is one of a few, and dashes and the check character
follow from the rest. Stored is "dD28691".

| written | stored | |
| --- | --- | --- |
| drum/D28-0691-4 | dD28691 | the class's sign; a house's prefix, letter, season, number |
| D28-0691-4 | D28691 | a code alone |
| customer/KEY, customer | c/KEY, c | what has a class with a sign, but is no code behind it |
| note/N30-0171-8 | n/N30171 | a mark's name keeps its "/", as it is one of many on its subject |
| anything else | as it is | with "=" before it if it would be read as one of these |

Every text has one short form, and no two texts have the same one. The signs belong to the schema:
what is here was written into houses. Another sign comes with a revision that writes all words
anew, since a word that gets one would not be found where it was stored without.
"""

import re
from functools import lru_cache

from honeyledger.domain.codes import check_character

SIGNS = {
    "barrel": "b",
    "bottling": "j",
    "customer": "c",
    "drum": "d",
    "equipment": "e",
    "filling": "f",
    "from": "a",
    "gate": "g",
    "hold": "h",
    "loaded": "l",
    "not from": "x",
    "note": "n",
    "operator": "o",
    "pack": "k",
    "pallet": "p",
    "part of run": "i",
    "recall": "q",
    "room": "m",
    "run": "r",
    "segment": "z",
    "store": "t",
    "supplier": "s",
    "unit": "u",
    "vessel": "v",
    "wet out": "w",
    "yard": "y",
}
"""What may stand before the first "/" of a word or of a mark's name, each by one sign."""

AS_IT_IS = "="
_CLASSES = {sign: name for name, sign in SIGNS.items()}
_ANY_SIGN = f"[{''.join(_CLASSES)}]"
_CODE = re.compile("(?:([A-Z]{2,3})-)?([A-Z][0-9]{2})-([0-9]{4}|[1-9][0-9]{4,7})-([0-9A-Z])")
_CODE_BEGUN = re.compile("(?:([A-Z]{2,3})-)?([A-Z][0-9]{2})-")
_SHORT_CODE = re.compile("([A-Z]{2,3})?([A-Z][0-9]{2})([0-9]|[1-9][0-9]{1,7})")
_IS_SHORT = re.compile(f"[{''.join(_CLASSES)}]?(?:{_SHORT_CODE.pattern})?|{AS_IT_IS}.*", re.DOTALL)
_LAST = "\U0010ffff"  # which stands for nothing, so that no word begins with it
_KEPT = 16_384


@lru_cache(_KEPT)
def short(word: str) -> str:
    """A place, a subject or a code as stored."""
    name, slash, key = word.partition("/")
    if not slash:
        code = SIGNS.get(word) or _short_code(word)
        return code or (AS_IT_IS + word if word and _IS_SHORT.fullmatch(word) else word)
    if name not in SIGNS:
        return f"{_kept(name)}/{key}"
    return SIGNS[name] + (_short_code(key) or f"/{key}")


@lru_cache(_KEPT)
def written(stored: str) -> str:
    """The word that is stored in this short form."""
    if stored.startswith(AS_IT_IS):
        return stored[len(AS_IT_IS) :]
    sign, slash, key = stored.partition("/")
    if slash:
        return f"{_CLASSES.get(sign, sign)}/{key}"
    if sign in _CLASSES:
        return _CLASSES[sign]
    name = _CLASSES.get(stored[:1])
    code = _written_code(stored[1:] if name else stored)
    if not code:
        return stored
    return f"{name}/{code}" if name else code


@lru_cache(_KEPT)
def _short_code(code: str) -> str:
    """A code without what follows from the rest; "" of what is none."""
    found = _CODE.fullmatch(code)
    if found is None:
        return ""
    prefix, head, number, check = found.groups("")
    if check != check_character(f"{prefix}{head}{number}"):
        return ""
    return f"{prefix}{head}{int(number)}"


@lru_cache(_KEPT)
def _written_code(stored: str) -> str:
    """The code as printed; "" where none is stored."""
    found = _SHORT_CODE.fullmatch(stored)
    if found is None:
        return ""
    prefix, head, number = found.groups("")
    number = number.zfill(4)
    code = f"{head}-{number}-{check_character(f'{prefix}{head}{number}')}"
    return f"{prefix}-{code}" if prefix else code


def lie_between(beginning: str) -> tuple[tuple[str, str], ...]:
    """Between which short forms all subjects lie that begin so; others may lie there, too.

    Args:
        beginning: with the "/" behind a class, or all there is lies there.
    """
    name, slash, key = beginning.partition("/")
    if not slash:
        return (("", _LAST),)
    if name not in SIGNS:
        return (_all_beginning(f"{_kept(name)}/{key}"),)
    sign, found = SIGNS[name], _CODE_BEGUN.match(key)
    if found is None:
        return (class_lies_between(name),)
    begun = f"{sign}{''.join(found.groups(''))}"
    return _all_beginning(begun), _all_beginning(f"{sign}/{key}")


def _kept(name: str) -> str:
    """What stands before a "/" and has no sign, kept apart from those signs."""
    return AS_IT_IS + name if name in _CLASSES or name.startswith(AS_IT_IS) else name


def class_lies_between(name: str) -> tuple[str, str]:
    """As `lie_between`, of a class of places: with a key, and the one place that has none."""
    if name in SIGNS:
        return SIGNS[name], f"{SIGNS[name]}["  # which follows Z
    return name, f"{name}0"  # which follows /


def _all_beginning(beginning: str) -> tuple[str, str]:
    return beginning, beginning[:-1] + chr(ord(beginning[-1]) + 1)


@lru_cache(_KEPT)
def short_name(name: str) -> str:
    """A mark's name as stored."""
    head, slash, rest = name.partition("/")
    if not slash:
        return name
    return f"{SIGNS.get(head) or _kept(head)}/{short(rest)}"


@lru_cache(_KEPT)
def written_name(stored: str) -> str:
    """The mark's name that is stored in this short form."""
    head, slash, rest = stored.partition("/")
    if not slash:
        return stored
    head = _CLASSES.get(head) or head.removeprefix(AS_IT_IS)
    return f"{head}/{written(rest)}"
