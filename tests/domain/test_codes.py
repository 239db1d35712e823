"""Codes: made by the published check, read however they come, offered again when misread."""

from contextlib import suppress
from string import ascii_uppercase, digits

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from honeyledger.domain.codes import (
    LARGEST_NUMBER,
    LARGEST_SERIAL,
    LETTERS,
    LOT_LETTERS,
    NOT_A_CODE,
    Code,
    JarCode,
    check_character,
    check_prefix,
    make_code,
    make_jar_code,
    near_codes,
    next_code,
    parse_code,
)
from honeyledger.domain.refusals import BrokenRule, Refusal

ALPHABET = digits + ascii_uppercase
JAR = "J26-0147-00382-F"
LINK = "HTTPS://KB.EXAMPLE/T/01/09521234543213/10/"

PREFIXES = st.sampled_from(["", "KB", "QZX"])
# Some numbers are skipped, so the last ones there are may have no next.
LAST_NUMBERS = st.integers(0, 9_980) | st.integers(0, LARGEST_NUMBER - 100)


def lots(letters: str = "".join(LETTERS)) -> st.SearchStrategy[Code]:
    return st.builds(
        next_code, st.sampled_from(letters), st.integers(0, 99), LAST_NUMBERS, PREFIXES
    )


def compact(code: Code | JarCode) -> str:
    return str(code).replace("-", "")


def refused(text: str, prefix: str = "") -> str:
    with pytest.raises(Refusal) as refusal:
        parse_code(text, prefix)
    assert refusal.value.field == "code"
    return refusal.value.text


def reads(text: str, prefix: str) -> bool:
    try:
        parse_code(text, prefix)
    except Refusal:
        return False
    return True


# The check character.


@pytest.mark.parametrize(
    ("body", "check"),
    [
        # Source: the tests of python-stdnum (mod_37_36, grid), node-iso7064 and cdigit.
        ("A12425GABC1234002", "M"),
        ("9", "J"),
        ("X0H", "X"),
        ("RABD", "A"),
        ("TBR", "1"),
        ("TRO", "D"),
        ("1M", "Q"),
        ("OW", "N"),
        ("B3739U6CR", "K"),
        ("WP8Z0", "9"),
        # Computed with python-stdnum.
        ("HH26A0417", "2"),
        ("L2026061501", "Y"),
    ],
)
def test_check_character_is_mod_37_36(body: str, check: str) -> None:
    assert check_character(body) == check


@given(st.text(ALPHABET, min_size=1, max_size=20))
def test_check_character_agrees_with_python_stdnum(body: str) -> None:
    assert check_character(body) == mod_37_36.calc_check_digit(body)


# Making.


def test_codes_print_as_the_ledger_writes_them() -> None:
    drum = make_code("D", 26, 611)
    assert str(drum) == "D26-0611-Y"
    assert str(make_code("D", 26, 611, "KB")) == "KB-D26-0611-M"
    lot = make_code("J", 26, 147)
    assert lot is not None
    assert str(make_jar_code(lot, 382)) == JAR
    longest = make_code("T", 4, 12_345_679)
    assert str(longest) == f"T04-12345679-{mod_37_36.calc_check_digit('T0412345679')}"


def test_numbers_with_check_i_or_o_are_skipped() -> None:
    skipped = [number for number in range(1, 2000) if make_code("D", 26, number) is None]
    checks = {check_character(f"D26{number:04}") for number in skipped}
    assert checks == {"I", "O"}
    assert next_code("D", 26, skipped[0] - 1).number == skipped[0] + 1
    given_out = [next_code("D", 26, number).check for number in range(2000)]
    assert not {"I", "O"} & set(given_out)


def test_serials_with_check_i_or_o_are_not_skipped() -> None:
    lot = next_code("J", 26, 146)
    jars = [make_jar_code(lot, serial) for serial in range(1, 2000)]
    assert {"I", "O"} <= {jar.check for jar in jars}
    assert all(parse_code(str(jar)) == jar for jar in jars)


def test_letters_have_nouns_and_lots_are_told_from_the_rest() -> None:
    assert set(LETTERS) == set("SPTDJKWXARGCLEYONQ")
    assert set(LOT_LETTERS) == set("SPTDJKWXA")
    assert next_code("D", 26, 610).noun == "drum"
    assert next_code("D", 26, 610).is_lot
    assert next_code("R", 26, 0).noun == "run"
    assert not next_code("R", 26, 0).is_lot


@pytest.mark.parametrize(
    ("letter", "season", "number"),
    [("B", 26, 1), ("D", 100, 1), ("D", -1, 1), ("D", 26, -1), ("D", 26, LARGEST_NUMBER + 1)],
)
def test_what_can_be_no_code_is_our_bug(letter: str, season: int, number: int) -> None:
    with pytest.raises(BrokenRule, match=f"no code for letter '{letter}'"):
        make_code(letter, season, number)


@pytest.mark.parametrize(("letter", "serial"), [("D", 1), ("J", -1), ("J", LARGEST_SERIAL + 1)])
def test_what_can_be_no_jar_code_is_our_bug(letter: str, serial: int) -> None:
    with pytest.raises(BrokenRule, match="no jar code for lot"):
        make_jar_code(next_code(letter, 26, 146), serial)


def test_a_house_may_have_letters_in_front() -> None:
    assert check_prefix(" kb ") == "KB"
    assert check_prefix("QZX") == "QZX"
    assert check_prefix("") == ""


@pytest.mark.parametrize("text", ["K", "KBKB", "K1", "ÄB"])
def test_other_prefixes_are_refused(text: str) -> None:
    with pytest.raises(Refusal) as refusal:
        check_prefix(text)
    assert refusal.value.text == (
        f"{text} cannot begin a house's codes: choose two or three letters from A to Z."
    )


# Reading.


@pytest.mark.parametrize(
    "text",
    [
        "D26-0611-Y",
        "d26-0611-y",
        "D260611Y",
        "  D26 0611 Y\r\n",
        "D26–0611—Y",
        "D26\u22120611\u2011Y",
        "D26_0611_Y",
        "D\u00a026\u200b0611\u00adY",
        "Ｄ２６－０６１１－Ｙ",
        "]Q1D26-0611-Y",
        "]C0D260611Y",
        "https://kb.example/t/d26-0611-y",
        "HTTPS://KB.EXAMPLE/D260611Y/",
        "kb.example/D26-0611-Y?from=label#top",
    ],
)
def test_a_lot_code_is_read_however_it_comes(text: str) -> None:
    assert parse_code(text) == Code("", "D", 26, 611, "Y")


@pytest.mark.parametrize(
    "text",
    [
        JAR,
        "j26 0147 00382 f",
        "J26014700382F",
        f"https://kb.example/t/{JAR}",
        # What we print: the lot in AI 10, the five digits in AI 21.
        f"{LINK}J26-0147-M/21/00382",
        f"{LINK}J260147M/21/00382",
        f"]Q1{LINK}J26-0147-M/21/00382",
        f"{LINK}J26-0147-M/21/00382?17=281231&linkType=gs1:pip",
        # The whole jar code in AI 21, or even in AI 10, is read as well.
        f"{LINK}J26-0147-M/21/{JAR}",
        f"{LINK}{JAR}",
        f"{LINK}{JAR}/21/{JAR}",
        f"https://kb.example/01/09521234543213/21/{JAR}",
        "]d2010952123454321310J26-0147-M\x1d2100382",
        "]C1010952123454321310J26-0147-M\x1d2100382",
        "]C1J26-0147-00382-F",
        "]d2j26-0147-00382-f",
        "]Q3J26014700382F",
        "]Q30109521234543213172812312100382\x1d10J26-0147-M",
        "010952123454321310J26-0147-M\x1d2100382",
        "\x1d010952123454321310J26-0147-M\x1d2100382",
        "(01)09521234543213(10)J26-0147-M(21)00382",
    ],
)
def test_a_jar_code_is_read_however_it_comes(text: str) -> None:
    jar = JarCode(Code("", "J", 26, 147, "M"), 382, "F")
    assert parse_code(text) == jar
    assert parse_code(text.swapcase()) == jar, "a keyboard with caps lock on turns letters round"


def test_a_link_without_serial_names_the_lot() -> None:
    assert parse_code(f"{LINK}J26-0147-M") == Code("", "J", 26, 147, "M")


@given(lots())
def test_every_code_is_read_back_with_and_without_hyphens(lot: Code) -> None:
    assert parse_code(str(lot), lot.prefix) == lot
    assert parse_code(compact(lot), lot.prefix) == lot


@given(lots("J"), st.integers(0, LARGEST_SERIAL))
def test_a_jar_and_a_lot_are_never_taken_for_each_other(lot: Code, serial: int) -> None:
    jar = make_jar_code(lot, serial)
    assert parse_code(compact(jar), lot.prefix) == jar
    assert parse_code(compact(lot), lot.prefix) == lot
    # The count of digits alone tells them apart, so no check character has to.
    assert sum(map(str.isdigit, compact(lot)[:-1])) <= 2 + 8
    assert sum(map(str.isdigit, compact(jar)[:-1])) >= 2 + 9


def test_a_lot_number_of_eight_digits_is_a_lot_and_of_nine_a_jar() -> None:
    longest = make_code("J", 26, 12_345_679)
    assert longest is not None
    assert parse_code(compact(longest)) == longest
    nine = "J26123456789"
    jar = parse_code(nine + check_character(nine))
    assert isinstance(jar, JarCode)
    assert (jar.lot.number, jar.serial) == (1234, 56789)


def test_a_long_number_with_a_zero_in_front_has_no_second_form() -> None:
    body = "D2600611"
    assert refused(body + check_character(body)).startswith("D2600611")


def test_codes_from_before_the_house_had_letters_are_still_read() -> None:
    assert parse_code("D26-0611-Y", "KB") == Code("", "D", 26, 611, "Y")
    assert parse_code("kb-d26-0611-m", "KB") == Code("KB", "D", 26, 611, "M")


def test_i_and_o_are_taken_as_1_and_0_in_the_check_place_of_a_lot() -> None:
    by_check = {code.check: code for code in (next_code("D", 26, n) for n in range(300))}
    one, nought = str(by_check["1"]), str(by_check["0"])
    assert parse_code(f"{one[:-1]}I") == by_check["1"]
    assert parse_code(f"{nought[:-1]}o") == by_check["0"]
    assert not reads(one.replace("-", "").replace("26", "2I")[:-1] + "1", "")


def test_i_in_the_check_place_of_a_jar_is_i_and_the_other_reading_is_offered() -> None:
    lot = next_code("J", 26, 146)
    jars = [make_jar_code(lot, serial) for serial in range(300)]
    one = next(jar for jar in jars if jar.check == "1")
    misread = f"{str(one)[:-1]}I"
    assert not reads(misread, "")
    assert str(one) in set(near_codes(misread))


# Refusals.


def test_nothing_scanned_is_refused() -> None:
    assert refused(" \r\n") == "Scan or type a code, such as D26-0611-Y."


@pytest.mark.parametrize(
    "text",
    [
        "D26-0611",
        "D26-611-Y",
        "B26-0611-Y",
        "Y41",
        "KBXX-D26-0611-Y",
        "K-D26-0611-Y",
        "honey",
        "-",
    ],
)
def test_what_has_not_the_form_of_a_code_is_refused(text: str) -> None:
    assert refused(text) == (
        f"{text} is not a code: type it as printed, such as D26-0611-Y, "
        "or J26-0147-00382-F for a jar."
    )


def test_a_page_of_text_is_not_thrown_back_whole() -> None:
    assert refused("honey " * 1000).startswith("honey honey honey")
    assert len(refused("honey " * 1000)) < 160


def test_a_misread_code_is_refused() -> None:
    assert refused("d26 0617 y") == (
        "D26-0617-Y is misread: its last character does not fit the rest. Scan or type it again."
    )


def test_a_number_that_is_never_given_is_refused() -> None:
    number = next(n for n in range(1000) if make_code("D", 26, n) is None)
    body = f"D26{number:04}"
    text = f"D26-{number:04}-{check_character(body)}"
    assert refused(text) == (
        f"{text} is misread: its number is one that is never given. Type it again."
    )
    number = next(n for n in range(1000) if make_code("J", 26, n) is None)
    body = f"J26{number:04}00001"
    assert refused(body + check_character(body)).endswith(
        "is misread: its number is one that is never given. Type it again."
    )


@pytest.mark.parametrize("prefix", ["", "QZX"])
def test_another_houses_code_is_refused(prefix: str) -> None:
    assert refused("KB-D26-0611-M", prefix) == (
        "KB-D26-0611-M has the letters KB of another house: enter it as the supplier's own lot "
        "code."
    )


def test_a_gs1_code_without_a_lot_is_refused() -> None:
    assert refused("(00)106141411234567897") == (
        "(00)106141411234567897 names no lot: scan the label's other code, or type the lot's code."
    )


@pytest.mark.parametrize(
    ("lot", "serial"),
    [("J26-0147-M", "0382"), ("J26-0148-O", JAR), ("D26-0611-Y", "00382"), (JAR, "00383")],
)
def test_a_serial_of_another_lot_is_refused(lot: str, serial: str) -> None:
    if lot.startswith("J26-0148"):
        lot = str(next_code("J", 26, 147))
    assert refused(f"{LINK}{lot}/21/{serial}") == (
        f"{serial} is not a serial of {lot}: scan it again, or type the jar's code as printed."
    )


def test_the_field_of_the_form_is_named() -> None:
    with pytest.raises(Refusal) as refusal:
        parse_code("x", field="drum")
    assert refusal.value.field == "drum"


@given(st.text() | st.from_regex(r"(\]d2|https://a/01/|\(10\))?[A-Z]{1,4}[0-9/()]*[0-9A-Z]?"))
def test_no_text_is_too_odd_to_be_refused(text: str) -> None:
    with suppress(Refusal):
        code = parse_code(text, "KB")
        assert parse_code(str(code), "KB") == code
    assert all(str(parse_code(near, "KB")) == near for near in near_codes(text, "KB"))


def _is_not_a_code(text: str) -> bool:
    try:
        parse_code(text, "KB")
    except Refusal as refusal:
        return refusal.key == NOT_A_CODE.key
    return False


@given(
    st.text()
    | st.from_regex(r"(\]d2|https://a/01/|\(10\))?(KB)?[A-Z]{0,2}[0-9/()\- ]*", fullmatch=True)
    | lots().map(lambda code: str(code)[:-1])
)
def test_which_digit_or_letter_ends_a_text_never_makes_a_code_of_a_name(text: str) -> None:
    """So that a name is known for one without every check character being tried behind it."""
    ends = digits + ascii_uppercase
    if all(_is_not_a_code(text + one) for one in "0A"):
        assert all(_is_not_a_code(text + one) for one in ends)
