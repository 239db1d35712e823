"""GS1 keys on labels: check digits, Digital Link addresses, element strings.

Only what our labels print and our scan box meets is known here: the application identifiers (AI)
of trade items, lots, serials, dates, weights and logistic units.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import quote, unquote, urlsplit

from honeyledger.domain.refusals import Refusal, Sentence

MISREAD_NUMBER = Sentence(
    "misread-gs1-number",
    "{number} is misread: its last digit does not fit the rest. Scan or type it again.",
)
NOT_A_GTIN = Sentence(
    "not-a-gtin",
    "{number} is not a trade item number (GTIN): type all its 8, 12, 13 or 14 digits.",
)
NOT_AN_ADDRESS = Sentence(
    "not-a-web-address",
    "{address} is not a web address: type it with its beginning, such as https://honey.example.",
)
NOT_A_VALUE = Sentence(
    "not-a-gs1-value",
    "{value} cannot be printed as {title} (AI {ai}) of a GS1 code: shorten it, and use letters, "
    "digits and plain signs without blanks.",
)
UNREADABLE = Sentence(
    "unreadable-gs1",
    "This GS1 code cannot be read from {rest} on: type the lot's code instead.",
)

NOT_A_COMPANY_PREFIX = Sentence(
    "not-a-company-prefix",
    "{prefix} is not a GS1 company prefix: type the 4 to 12 digits of your GS1 certificate.",
)
NUMBERS_USED_UP = Sentence(
    "sscc-used-up",
    "The company prefix {prefix} has no more numbers for cases and pallets: ask GS1 for a shorter "
    "one and enter it in Setup.",
)

SEPARATOR = "\x1d"
"""Group separator: what a scanner sends for FNC1 between two elements."""


@dataclass(frozen=True, slots=True)
class _Identifier:
    title: str
    value: re.Pattern[str]
    # A value of predefined length has no separator after it.
    predefined: bool = False
    has_check_digit: bool = False


def _text(title: str, longest: int) -> _Identifier:
    """Any of the 82 characters GS1 allows in a free value (CSET 82)."""
    return _Identifier(title, re.compile(f'[!"%-?A-Z_a-z]{{1,{longest}}}'))


def _digits(title: str, least: int, most: int) -> _Identifier:
    return _Identifier(title, re.compile(f"[0-9]{{{least},{most}}}"))


def _fixed(title: str, digits: int, *, has_check_digit: bool = False) -> _Identifier:
    value = re.compile(f"[0-9]{{{digits}}}")
    return _Identifier(title, value, predefined=True, has_check_digit=has_check_digit)


# Source: gs1/gs1-syntax-dictionary, gs1-syntax-dictionary.txt; 235, 390n and 392n are values from
# memory. An n at the end stands for the number of decimals.
_IDENTIFIERS = {
    "00": _fixed("SSCC", 18, has_check_digit=True),
    "01": _fixed("GTIN", 14, has_check_digit=True),
    "02": _fixed("CONTENT", 14, has_check_digit=True),
    "10": _text("BATCH/LOT", 20),
    "11": _fixed("PROD DATE", 6),
    "13": _fixed("PACK DATE", 6),
    "15": _fixed("BEST BEFORE", 6),
    "17": _fixed("USE BY", 6),
    "21": _text("SERIAL", 20),
    "22": _text("CPV", 20),
    "235": _text("TPX", 28),
    "240": _text("ADDITIONAL ID", 30),
    "254": _text("GLN EXTENSION", 20),
    "30": _digits("VAR. COUNT", 1, 8),
    "310n": _fixed("NET WEIGHT (kg)", 6),
    "320n": _fixed("NET WEIGHT (lb)", 6),
    "330n": _fixed("GROSS WEIGHT (kg)", 6),
    "37": _digits("COUNT", 1, 8),
    "390n": _digits("AMOUNT", 1, 15),
    "392n": _digits("PRICE", 1, 15),
    "400": _text("ORDER NUMBER", 30),
    "410": _fixed("SHIP TO", 13, has_check_digit=True),
    "414": _fixed("LOCATION", 13, has_check_digit=True),
    "416": _fixed("PROD LOCATION", 13, has_check_digit=True),
    "417": _fixed("PARTY", 13, has_check_digit=True),
    "422": _digits("ORIGIN", 3, 3),
    "423": _digits("PROCESSING COUNTRIES", 3, 15),
    "8008": _digits("PROD TIME", 8, 12),
}
# What may follow a key in a Digital Link address, in this order or not at all.
_QUALIFIERS = {"00": (("",),), "01": (("22", "10", "21"), ("235",)), "414": (("254",),)}

_LINK = re.compile(r"/(00|01|414)/([0-9]{8,18})((?:/[^/]*)*)")
# GS1-128, GS1 DataMatrix, GS1 QR, GS1 DataBar and GS1 DotCode, as a scanner names them; with caps
# lock on their letters are turned round. E0 stays out of that: it is an EAN-13 by itself.
_GS1_SYMBOL = re.compile(r"\](?:[Cc]1|[dD]2|[Qq]3|e0|[Jj]1)")
_ANY_SYMBOL = re.compile(r"\][A-Za-z][0-9A-Za-z]")
_BRACKETED = re.compile(r"\(([0-9]{2,4})\)")
_BEGINS_WITH_KEY = re.compile(r"01[0-9]{14}|02[0-9]{14}|00[0-9]{18}")
_HOST = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9.-]*[A-Za-z0-9])?(?::[0-9]{1,5})?")


def check_digit(digits: str) -> str:
    """Compute the check digit of any numeric GS1 key (GTIN, SSCC, GLN) from the digits before it.

    Source: https://www.gs1.org/how-calculate-check-digit-manually (weights 3, 1, 3 ... from the
    right).
    """
    total = sum(int(digit) * (1 if at % 2 else 3) for at, digit in enumerate(reversed(digits)))
    return str(-total % 10)


def parse_gtin(text: str, *, field: str = "gtin") -> str:
    """Read a trade item number as typed, and give it with 14 digits, as GS1 codes carry it.

    Raises:
        Refusal: it has a wrong length or a wrong check digit.
    """
    number = re.sub(r"[\s-]", "", text)
    if not re.fullmatch(r"[0-9]{8}|[0-9]{12,14}", number):
        raise Refusal(NOT_A_GTIN, field=field, number=_shown(text.strip()) or "Nothing")
    return _checked(number, field).zfill(14)


def parse_company_prefix(text: str, *, field: str = "gs1_prefix") -> str:
    """Read the company prefix that GS1 gave a house; "" where it has none.

    Source: GS1 General Specifications, 4 to 12 digits (value from memory).

    Raises:
        Refusal: it is not so many digits.
    """
    prefix = re.sub(r"[\s-]", "", text)
    if prefix and not re.fullmatch(r"[0-9]{4,12}", prefix):
        raise Refusal(NOT_A_COMPANY_PREFIX, field=field, prefix=_shown(text.strip()))
    return prefix


def make_sscc(prefix: str, number: int) -> str:
    """Number a case or pallet (SSCC): extension digit, company prefix, serial and check digit.

    Seventeen digits and their check (source: gs1au.org). The extension digit is ours to choose:
    it counts on where the serial has no more digits.

    Raises:
        Refusal: the prefix has no number left.
    """
    digits = 16 - len(prefix)
    extension, serial = divmod(number, 10**digits)
    if extension > 9:
        raise Refusal(NUMBERS_USED_UP, field="gs1_prefix", prefix=prefix)
    body = f"{extension}{prefix}{serial:0{digits}}"
    return body + check_digit(body)


def sscc_in(text: str, *, field: str = "code") -> str:
    """Give the number of a logistic unit (SSCC) that was scanned, or typed as printed; "" if none.

    Raises:
        Refusal: it is a GS1 code that cannot be read.
    """
    if not text.isascii() or sum(character.isdigit() for character in text) < 18:
        return ""
    if re.fullmatch(r"[0-9]{18}", number := re.sub(r"[\s-]", "", text)):
        return number if check_digit(number[:-1]) == number[-1] else ""
    text = re.sub(r"(?<=[0-9)]) (?=[0-9])", "", text.strip())
    return (read_elements(text, field=field) or {}).get("00", "")


def trade_item_in(text: str) -> str:
    """Give the trade item number, with 14 digits, of what names no lot; "" for anything else.

    A retail code is bare figures; a scanner may say before them what symbol it read.
    """
    bare = re.sub(r"[\s-]", "", _ANY_SYMBOL.sub("", text.strip(), count=1))
    try:
        if re.fullmatch(r"[0-9]{8}|[0-9]{12,14}", bare):
            return parse_gtin(bare)
        return (read_elements(text.strip()) or {}).get("01", "")
    except Refusal:
        return ""


def digital_link(
    base: str,
    gtin: str,
    lot: str,
    serial: str | None = None,
    attributes: Mapping[str, str] | None = None,
) -> str:
    """Write the Digital Link address of a lot, or of one jar of it, in the house's own domain.

    The base is put in capitals, as a QR holds capitals in fewer modules; a house whose address
    has a path must therefore answer to that path in capitals too. `attributes` are further AI
    (a date, a weight), which go behind a question mark.

    Raises:
        Refusal: the base is no web address, the GTIN is wrong, or a value does not fit its AI.
    """
    address = _parse_address(base).upper()
    address += f"/01/{parse_gtin(gtin)}/10/{_quoted('10', lot)}"
    if serial is not None:
        address += f"/21/{_quoted('21', serial)}"
    pairs = [f"{ai}={_quoted(ai, value)}" for ai, value in (attributes or {}).items()]
    return f"{address}?{'&'.join(pairs)}" if pairs else address


def element_string(elements: Mapping[str, str]) -> str:
    """Write AI and values as they are encoded in a GS1 symbol, without the leading FNC1.

    Raises:
        Refusal: a value does not fit its AI.
    """
    parts = []
    for ai, value in elements.items():
        identifier = _checked_identifier(ai, value)
        parts.append(f"{ai}{value}{'' if identifier.predefined else SEPARATOR}")
    return "".join(parts).removesuffix(SEPARATOR)


def bracketed(elements: Mapping[str, str]) -> str:
    """Write AI and values as they stand in type under a GS1 symbol, such as (01)095...(10)ABC.

    Raises:
        Refusal: a value does not fit its AI.
    """
    for ai, value in elements.items():
        _checked_identifier(ai, value)
    return "".join(f"({ai}){value}" for ai, value in elements.items())


def read_elements(text: str, *, field: str = "code") -> dict[str, str] | None:
    """Read a Digital Link address or an element string into AI and values; None if it is neither.

    Element strings are taken as scanners send them: with or without the symbol's kind in front,
    with the group separator, or in brackets as printed.

    Raises:
        Refusal: it is a GS1 code, but cannot be read or fails a check digit.
    """
    gs1_symbol = _GS1_SYMBOL.match(text)
    text = _ANY_SYMBOL.sub("", text, count=1) if _ANY_SYMBOL.match(text) else text
    if "/" in text:
        path, _, query = text.partition("#")[0].partition("?")
        link = _LINK.search(path)
        if link is not None and link.end() == len(path):
            return _read_link(link, query, field)
    if _BRACKETED.match(text):
        return _read_brackets(text, field)
    # Elements begin with a number: a code of the house is one, whatever symbol it stands in.
    is_elements = gs1_symbol is not None and not text[:1].isalpha()
    if is_elements or SEPARATOR in text or _BEGINS_WITH_KEY.match(text):
        return _read_string(text.strip(SEPARATOR), field)
    return None


def _read_link(link: re.Match[str], query: str, field: str) -> dict[str, str]:
    key, number, rest = link.groups()
    elements: dict[str, str] = {}
    _put(elements, key, number.zfill(14) if key == "01" else number, field)
    parts = rest.rstrip("/").split("/")[1:]
    names = parts[::2]
    if len(parts) % 2 or not any(_in_order(names, allowed) for allowed in _QUALIFIERS[key]):
        raise Refusal(UNREADABLE, field=field, rest=_shown(rest.rstrip("/")))
    for ai, value in zip(names, parts[1::2], strict=True):
        _put(elements, ai, unquote(value), field)
    for pair in query.split("&"):
        ai, _, value = pair.partition("=")
        # A query may also carry words of the web's own, such as linkType.
        if _identifier(ai) is not None:
            _put(elements, ai, unquote(value), field)
    return elements


def _in_order(names: list[str], allowed: tuple[str, ...]) -> bool:
    return names == [name for name in allowed if name in names]


def _read_brackets(text: str, field: str) -> dict[str, str]:
    elements: dict[str, str] = {}
    parts = _BRACKETED.split(text)[1:]
    for ai, value in zip(parts[::2], parts[1::2], strict=True):
        _put(elements, ai, value.strip(), field)
    return elements


def _read_string(text: str, field: str) -> dict[str, str]:
    elements: dict[str, str] = {}
    at = 0
    while at < len(text):
        ai = next((text[at : at + n] for n in (2, 3, 4) if _identifier(text[at : at + n])), "")
        identifier = _identifier(ai)
        end = at + len(text[at:].partition(SEPARATOR)[0])
        if identifier is not None and identifier.predefined:
            value = identifier.value.match(text, at + len(ai))
            end = value.end() if value else end
        _put(elements, ai, text[at + len(ai) : end], field)
        at = end + (text[end : end + 1] == SEPARATOR)
    return elements


def _put(elements: dict[str, str], ai: str, value: str, field: str) -> None:
    identifier = _identifier(ai)
    if identifier is None or not identifier.value.fullmatch(value):
        raise Refusal(UNREADABLE, field=field, rest=_shown(f"{ai}{value}"))
    elements[ai] = _checked(value, field) if identifier.has_check_digit else value


def _identifier(ai: str) -> _Identifier | None:
    is_decimal = len(ai) == 4 and ai.isascii() and ai.isdigit()
    return _IDENTIFIERS.get(ai) or (_IDENTIFIERS.get(f"{ai[:3]}n") if is_decimal else None)


def _checked_identifier(ai: str, value: str) -> _Identifier:
    identifier = _identifier(ai)
    if identifier is None or not identifier.value.fullmatch(value):
        title = identifier.title if identifier else "an element"
        raise Refusal(NOT_A_VALUE, value=_shown(value), title=title, ai=ai)
    if identifier.has_check_digit:
        _checked(value, "")
    return identifier


def _checked(number: str, field: str) -> str:
    if check_digit(number[:-1]) != number[-1]:
        raise Refusal(MISREAD_NUMBER, field=field, number=number)
    return number


def _quoted(ai: str, value: str) -> str:
    _checked_identifier(ai, value)
    return quote(value, safe="")


def _parse_address(base: str) -> str:
    text = base.strip().rstrip("/")
    try:
        parts = urlsplit(text)
    except ValueError:
        parts = urlsplit("")
    is_plain = re.fullmatch(r"[!-~]+", text) and not parts.query and not parts.fragment
    if parts.scheme not in ("http", "https") or not is_plain or not _HOST.fullmatch(parts.netloc):
        raise Refusal(NOT_AN_ADDRESS, field="address", address=_shown(base.strip()) or "Nothing")
    return text


def _shown(text: str) -> str:
    """Shorten what a refusal quotes: a scanner can send a page of text."""
    printable = text.replace(SEPARATOR, " ")
    return printable if len(printable) <= 60 else f"{printable[:57]}..."
