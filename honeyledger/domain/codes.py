"""Lot codes: how they are made, read and offered again when misread.

A code is `K YY-NNNN-C`: letter, season, number of four to eight digits, check character; a jar's
code has its serial of exactly five digits before the check. A house may put two or three letters
of its own in front. Which codes exist is the ledger's to know, not this module's.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from honeyledger.domain import gs1
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import BrokenRule, Refusal, Sentence

LOT_LETTERS = {
    "S": phrase("pull"),
    "P": phrase("purchase"),
    "T": phrase("tank fill"),
    "D": phrase("drum"),
    "J": phrase("jar lot"),
    "K": phrase("comb honey"),
    "W": phrase("wax or cappings"),
    "X": phrase("sample"),
    "A": phrase("addition or packaging"),
}
OTHER_LETTERS = {
    "R": phrase("run"),
    "G": phrase("pallet tag"),
    "C": phrase("case"),
    "L": phrase("shipping pallet"),
    "E": phrase("equipment"),
    "Y": phrase("yard"),
    "O": phrase("operator badge"),
    "N": phrase("dispatch note"),
    "Q": phrase("recall"),
}
LETTERS = LOT_LETTERS | OTHER_LETTERS

NO_CODE = Sentence("no-code", "Scan or type a code, such as D26-0611-Y.")
NOT_A_CODE = Sentence(
    "not-a-code",
    "{code} is not a code: type it as printed, such as D26-0611-Y, or J26-0147-00382-F for a jar.",
)
MISREAD_CODE = Sentence(
    "misread-code",
    "{code} is misread: its last character does not fit the rest. Scan or type it again.",
)
NEVER_GIVEN = Sentence(
    "never-given", "{code} is misread: its number is one that is never given. Type it again."
)
OTHER_HOUSE = Sentence(
    "other-house",
    "{code} has the letters {theirs} of another house: enter it as the supplier's own lot code.",
)
NO_LOT = Sentence(
    "no-lot-in-code", "{text} names no lot: scan the label's other code, or type the lot's code."
)
NOT_ITS_SERIAL = Sentence(
    "not-its-serial",
    "{serial} is not a serial of {lot}: scan it again, or type the jar's code as printed.",
)
BAD_PREFIX = Sentence(
    "bad-prefix", "{prefix} cannot begin a house's codes: choose two or three letters from A to Z."
)

LARGEST_NUMBER = 99_999_999
LARGEST_SERIAL = 99_999

_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_NEXT_PRODUCT = {
    character: tuple((((product + value) % 36 or 36) * 2) % 37 for product in range(37))
    for value, character in enumerate(_ALPHABET)
}
"""By a body's next character and the product up to it: a ledger computes hundreds of thousands."""
# Four to eight digits of number and exactly five of serial: the count of digits alone then tells
# a jar (nine or more) from a lot (eight or fewer), so hyphens are never needed to read a code.
# A number above four digits has no leading zero, so every code has one form only.
_NUMBER = "(?P<number>[0-9]{4}|[1-9][0-9]{4,7})"
_HEAD = "(?P<prefix>[A-Z]{2,3}|)"
_CODE = re.compile(
    f"{_HEAD}(?P<letter>[{''.join(LETTERS)}])(?P<season>[0-9]{{2}}){_NUMBER}(?P<check>[0-9A-Z])"
)
_JAR = re.compile(
    f"{_HEAD}J(?P<season>[0-9]{{2}}){_NUMBER}(?P<serial>[0-9]{{5}})(?P<check>[0-9A-Z])"
)
_PREFIX = re.compile("[A-Z]{2,3}")
# Blanks, control and invisible characters, underscores, and every dash that NFKC leaves.
_BETWEEN = re.compile("[\\s\x00-\x1f_\\-\u00ad\u200b-\u2015\u2060\u2212\ufeff]+")
# The three characters a scanner may be set to send first, to say what kind of symbol it read.
_SYMBOLOGY = re.compile("\\][A-Za-z][0-9A-Za-z]")
_LONGEST = 3 + 1 + 2 + 8 + 5 + 1
_FEWEST_DIGITS = 2 + 4
_DIGITS = frozenset("0123456789")
_SKIPPED = frozenset("IO")
_TAKEN_AS = {"I": "1", "O": "0"}


@dataclass(frozen=True, slots=True)
class Code:
    """The code of a lot, or of a run, pallet tag, case ... Made by `make_code` or `parse_code`."""

    prefix: str
    letter: str
    season: int
    number: int
    check: str

    def __str__(self) -> str:
        """Give the printed form, such as D26-0611-Y or KB-D26-0611-3."""
        head = f"{self.prefix}-" if self.prefix else ""
        return f"{head}{self.letter}{self.season:02}-{self.number:04}-{self.check}"

    @property
    def noun(self) -> str:
        """What the letter stands for, for use in a sentence."""
        return LETTERS[self.letter]

    @property
    def is_lot(self) -> bool:
        """Whether honey, wax or packaging can be counted under it."""
        return self.letter in LOT_LETTERS


@dataclass(frozen=True, slots=True)
class JarCode:
    """The code of one jar: its jar lot and its serial in it. Made by `make_jar_code`."""

    lot: Code
    serial: int
    check: str

    def __str__(self) -> str:
        """Give the printed form, such as J26-0147-00382-F."""
        return f"{str(self.lot)[:-2]}-{self.serial:05}-{self.check}"


def check_character(body: str) -> str:
    """Compute the ISO/IEC 7064 MOD 37,36 check character of a code's characters before it."""
    product = 36
    for character in body:
        product = _NEXT_PRODUCT[character][product]
    return _ALPHABET[(1 - product) % 36]


def check_prefix(text: str) -> str:
    """Read the letters a house wants in front of its codes; none at all is fine.

    Raises:
        Refusal: it is not two or three letters.
    """
    prefix = text.strip().upper()
    if prefix and not _PREFIX.fullmatch(prefix):
        raise Refusal(BAD_PREFIX, field="prefix", prefix=_shown(text))
    return prefix


def make_code(letter: str, season: int, number: int, prefix: str = "") -> Code | None:
    """Make the code of a number, or None where the number is one that is skipped.

    A number whose check character would be I or O is skipped, because in print those two are
    taken for 1 and 0.
    """
    if letter not in LETTERS or not 0 <= season <= 99 or not 0 <= number <= LARGEST_NUMBER:
        raise BrokenRule(f"no code for letter {letter!r}, season {season}, number {number}")
    check = check_character(f"{prefix}{letter}{season:02}{number:04}")
    return None if check in _SKIPPED else Code(prefix, letter, season, number, check)


def next_code(letter: str, season: int, last_number: int, prefix: str = "") -> Code:
    """Make the first code after the last number given, passing over the numbers skipped."""
    number = last_number + 1
    while (code := make_code(letter, season, number, prefix)) is None:
        number += 1
    return code


def make_jar_code(lot: Code, serial: int) -> JarCode:
    """Make the code of one jar. No serial is skipped: the serial is the jar counter itself."""
    if lot.letter != "J" or not 0 <= serial <= LARGEST_SERIAL:
        raise BrokenRule(f"no jar code for lot {lot}, serial {serial}")
    check = check_character(f"{lot.prefix}J{lot.season:02}{lot.number:04}{serial:05}")
    return JarCode(lot, serial, check)


def parse_code(text: str, prefix: str = "", *, field: str = "code") -> Code | JarCode:
    """Read a code as scanned or typed.

    Case, blanks, hyphens and other dashes do not matter. A web address is read by its last part;
    a GS1 Digital Link or element string by its lot (AI 10) and serial (AI 21), where the serial
    is the five digits we print or a whole jar code. `prefix` is this house's own: codes with it
    and codes without any are read, codes of another house are not.

    In the check place of a lot's code I is taken as 1 and O as 0, since no lot's code ends in I
    or O. A jar's may, so there I stays I: taken as 1 as well, it would let a misread digit pass.

    Raises:
        Refusal: it is no code, is misread, or is another house's.
    """
    text = text.strip()
    if not text:
        raise Refusal(NO_CODE, field=field)
    elements = gs1.read_elements(text, field=field)
    if elements is None:
        return _read(_plain(text), prefix, field)
    serial = elements.get("21", "")
    lot_text = elements.get("10") or (serial if len(serial) > 5 else "")
    if not lot_text:
        raise Refusal(NO_LOT, field=field, text=_shown(text))
    lot = _read(_compact(lot_text), prefix, field)
    if not serial or serial == lot_text:
        return lot
    return _jar_of(lot, serial, prefix, field)


def near_codes(text: str, prefix: str = "") -> Iterator[str]:
    """Give every valid code one slip away from the text, in printed form, each once.

    A slip is one character wrong, two neighbours swapped, one left out or one too many; the
    house's prefix left off counts as one. Which of them exist is for the caller to look up, and
    which is meant for the user to choose. The text itself is not given.
    """
    read = _compact(_plain(text.strip()))[: _LONGEST + 2]
    if sum(character in _DIGITS for character in read) < _FEWEST_DIGITS - 1:
        return  # a name: every verb is told names, and trying all its slips takes milliseconds
    seen = {read}
    for candidate in _one_slip_away(read, prefix):
        if candidate in seen:
            continue
        seen.add(candidate)
        found = _match(candidate)
        if found is not None and _is_valid(found, prefix):
            yield _printed(found)


def _one_slip_away(read: str, prefix: str) -> Iterator[str]:
    places = range(len(read))
    yield prefix + read
    for at in places[1:]:
        yield read[: at - 1] + read[at] + read[at - 1] + read[at + 1 :]
    for at in places:
        head, tail = read[:at], read[at + 1 :]
        for character in _ALPHABET:
            yield head + character + tail
    for at in range(len(read) + 1):
        head, tail = read[:at], read[at:]
        for character in _ALPHABET:
            yield head + character + tail
    for at in places:
        yield read[:at] + read[at + 1 :]


def _plain(text: str) -> str:
    """Drop what stands around the code: the symbol's kind, a web address, its query."""
    symbology = _SYMBOLOGY.match(text)
    if symbology:
        text = text[symbology.end() :]
    if "/" in text:
        text = re.split("[?#]", text, maxsplit=1)[0].rstrip("/").rpartition("/")[2]
    return text


def _compact(text: str) -> str:
    return _BETWEEN.sub("", unicodedata.normalize("NFKC", text)).upper()


def _shown(text: str) -> str:
    """Shorten what a refusal quotes: a scanner can send a page of text."""
    return text if len(text) <= 60 else f"{text[:57]}..."


def _match(read: str) -> re.Match[str] | None:
    return _CODE.fullmatch(read) or _JAR.fullmatch(read)


def _is_valid(found: re.Match[str], prefix: str) -> bool:
    """Whether the check character fits and a code of this house can look so."""
    read = found.string
    if check_character(read[:-1]) != found["check"] or found["prefix"] not in ("", prefix):
        return False
    if found.re is _JAR:
        return check_character(read[:-6]) not in _SKIPPED
    return found["check"] not in _SKIPPED


def _printed(found: re.Match[str]) -> str:
    return str(_built(found, found["check"]))


def _built(found: re.Match[str], check: str) -> Code | JarCode:
    season, number = int(found["season"]), int(found["number"])
    if found.re is _CODE:
        return Code(found["prefix"], found["letter"], season, number, check)
    lot = Code(found["prefix"], "J", season, number, check_character(found.string[:-6]))
    return JarCode(lot, int(found["serial"]), check)


def _read(text: str, prefix: str, field: str) -> Code | JarCode:
    read = _compact(text)
    found = _match(read)
    if found is None:
        raise Refusal(NOT_A_CODE, field=field, code=_shown(text))
    check = check_character(read[:-1])
    given = found["check"]
    if found.re is _CODE:
        given = _TAKEN_AS.get(given, given) if given != check else given
    code = _built(found, given)
    if given != check:
        raise Refusal(MISREAD_CODE, field=field, code=code)
    lot = code.lot if isinstance(code, JarCode) else code
    if lot.check in _SKIPPED:
        raise Refusal(NEVER_GIVEN, field=field, code=code)
    if lot.prefix not in ("", prefix):
        raise Refusal(OTHER_HOUSE, field=field, code=code, theirs=lot.prefix)
    return code


def _jar_of(lot: Code | JarCode, serial: str, prefix: str, field: str) -> JarCode:
    if isinstance(lot, Code) and lot.letter == "J" and re.fullmatch("[0-9]{5}", serial):
        return make_jar_code(lot, int(serial))
    if len(serial) > 5:
        jar = _read(serial, prefix, field)
        if isinstance(jar, JarCode) and lot in (jar, jar.lot):
            return jar
    raise Refusal(NOT_ITS_SERIAL, field=field, serial=_shown(serial), lot=lot)
