"""GS1 keys, addresses and element strings against published examples."""

import re
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import ean, gs1_128

from honeyledger.domain.gs1 import (
    bracketed,
    check_digit,
    digital_link,
    element_string,
    make_sscc,
    parse_company_prefix,
    parse_gtin,
    read_elements,
    sscc_in,
    trade_item_in,
)
from honeyledger.domain.refusals import Refusal

GTIN = "09521234543213"
HOUSE = "https://honey.example"
CSET_82 = "!\"%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz"
LOT_TEXT = st.text(CSET_82, min_size=1, max_size=20)


def refused(call: Callable[[], object], field: str = "") -> str:
    with pytest.raises(Refusal) as refusal:
        call()
    assert refusal.value.field == field
    return refusal.value.text


# Check digits.


@pytest.mark.parametrize(
    ("digits", "check"),
    [
        # Source: https://www.gs1.org/how-calculate-check-digit-manually
        ("629104150021", "3"),
        # Source: gs1.se
        ("730001100001", "7"),
        # Source: bwipp wiki, SSCC 106141411234567897 and GTIN 09521234543213
        ("10614141123456789", "7"),
        ("0952123454321", "3"),
        ("10614141192837465", "7"),
        # Source: the tests of cdigit
        ("89423228872", "1"),
        ("05127506082", "4"),
        ("502530137140", "1"),
        ("81140602000", "0"),
        # A GLN; computed
        ("061414112345", "2"),
    ],
)
def test_check_digits_are_as_published(digits: str, check: str) -> None:
    assert check_digit(digits) == check


@given(st.text("0123456789", min_size=7, max_size=17))
def test_check_digits_agree_with_python_stdnum(digits: str) -> None:
    assert check_digit(digits) == ean.calc_check_digit(digits)


@pytest.mark.parametrize(
    ("text", "gtin"),
    [
        # Source: the tests of python-stdnum
        ("73513537", "00000073513537"),
        ("978-0-471-11709-4", "09780471117094"),
        ("98412345678908", "98412345678908"),
        (" 614141 000036 ", "00614141000036"),
    ],
)
def test_a_trade_item_number_is_read_into_14_digits(text: str, gtin: str) -> None:
    assert parse_gtin(text) == gtin


@pytest.mark.parametrize("text", ["123456789", "", "97804711170941", "honey", "9780471117094X"])
def test_what_is_no_trade_item_number_is_refused(text: str) -> None:
    if text == "97804711170941":
        expected = (
            "97804711170941 is misread: its last digit does not fit the rest. "
            "Scan or type it again."
        )
    else:
        expected = (
            f"{text or 'Nothing'} is not a trade item number (GTIN): "
            "type all its 8, 12, 13 or 14 digits."
        )
    assert refused(lambda: parse_gtin(text), "gtin") == expected


# Digital Link.


def test_our_address_is_in_the_capitals_a_qr_packs_tightest() -> None:
    address = digital_link(HOUSE, GTIN, "J26-0147-M", "00382")
    assert address == "HTTPS://HONEY.EXAMPLE/01/09521234543213/10/J26-0147-M/21/00382"
    # ISO/IEC 18004, alphanumeric mode; value from memory.
    assert re.fullmatch(r"[0-9A-Z $%*+\-./:]+", address)
    assert digital_link("https://honey.example/t/", "9521234543213", "J26-0147-M") == (
        "HTTPS://HONEY.EXAMPLE/T/01/09521234543213/10/J26-0147-M"
    )


def test_the_published_address_goes_both_ways() -> None:
    # Source: the GS1 Digital Link toolkit's example, in the encoded form.
    elements = {"01": "05412345000013", "10": "ABC&+123", "3103": "000189", "3923": "2172"}
    address = "https://id.gs1.org/01/05412345000013/10/ABC%26%2B123?3103=000189&3923=2172"
    written = digital_link(
        "https://id.gs1.org",
        elements["01"],
        elements["10"],
        attributes={"3103": "000189", "3923": "2172"},
    )
    assert written == address.replace("https://id.gs1.org", "HTTPS://ID.GS1.ORG")
    assert read_elements(address) == read_elements(written) == elements


@pytest.mark.parametrize(
    ("address", "elements"),
    [
        # Source: bwipp wiki, "GS1 Digital Link URIs"
        (
            "https://id.gs1.org/01/09521234543213/10/ABC123/21/12345",
            {"01": GTIN, "10": "ABC123", "21": "12345"},
        ),
        (
            "https://id.gs1.org/01/09521234543213/10/ABC123?17=261231",
            {"01": GTIN, "10": "ABC123", "17": "261231"},
        ),
        ("https://id.gs1.org/00/106141411234567897", {"00": "106141411234567897"}),
        (
            "https://id.gs1.org/01/09521234543213/22/2A/21/12345",
            {"01": GTIN, "22": "2A", "21": "12345"},
        ),
        (
            "HTTPS://HONEY.EXAMPLE/T/01/9521234543213/10/A/?linkType=gs1:pip#top",
            {"01": GTIN, "10": "A"},
        ),
    ],
)
def test_addresses_are_read(address: str, elements: dict[str, str]) -> None:
    assert read_elements(address) == elements
    assert read_elements(f"]Q1{address}") == elements


@pytest.mark.parametrize(
    ("path", "rest"),
    [
        # Source: bwipp wiki, on the order of qualifiers
        ("/10/ABC123/22/2A", "/10/ABC123/22/2A"),
        ("/10/ABC123/235/XYZ", "/10/ABC123/235/XYZ"),
        ("/10/ABC123/21", "/10/ABC123/21"),
        ("/99/ABC", "/99/ABC"),
        ("/10/ABC%20123", "10ABC 123"),
        (f"/10/{'A' * 21}", f"10{'A' * 21}"),
        ("?17=2612", "172612"),
    ],
)
def test_addresses_against_the_rules_are_refused(path: str, rest: str) -> None:
    assert refused(lambda: read_elements(f"https://id.gs1.org/01/{GTIN}{path}"), "code") == (
        f"This GS1 code cannot be read from {rest} on: type the lot's code instead."
    )


def test_an_address_with_a_misread_number_is_refused() -> None:
    address = "https://id.gs1.org/01/09521234543214/10/ABC123"
    assert refused(lambda: read_elements(address, field="jar"), "jar") == (
        "09521234543214 is misread: its last digit does not fit the rest. Scan or type it again."
    )


@pytest.mark.parametrize(
    "text",
    [
        "honey.example",
        "ftp://honey.example",
        "https://",
        "https://honey example",
        "https://honey.example?to=1",
        "https://honey.example/#top",
        "https://[honey",
        "https://me@honey.example",
        "",
    ],
)
def test_what_is_no_web_address_is_refused(text: str) -> None:
    assert refused(lambda: digital_link(text, GTIN, "A"), "address") == (
        f"{text or 'Nothing'} is not a web address: type it with its beginning, "
        "such as https://honey.example."
    )


@pytest.mark.parametrize("lot", ["", "A" * 21, "LOT 5", "ÄB"])
def test_a_lot_that_fits_no_gs1_code_is_refused(lot: str) -> None:
    assert refused(lambda: digital_link(HOUSE, GTIN, lot)) == (
        f"{lot} cannot be printed as BATCH/LOT (AI 10) of a GS1 code: shorten it, and use "
        "letters, digits and plain signs without blanks."
    )


@given(LOT_TEXT, st.none() | LOT_TEXT)
def test_every_address_written_is_read_back(lot: str, serial: str | None) -> None:
    elements = read_elements(digital_link(HOUSE, GTIN, lot, serial))
    assert elements == {"01": GTIN, "10": lot} | ({"21": serial} if serial else {})


# Element strings.


@pytest.mark.parametrize(
    ("elements", "encoded", "printed"),
    [
        # Source: the tests of python-stdnum, gs1_128
        (
            {"01": "38425876095074", "17": "181119", "37": "1"},
            "013842587609507417181119371",
            "(01)38425876095074(17)181119(37)1",
        ),
        (
            {"02": "98412345678908", "3102": "001723", "37": "32"},
            "029841234567890831020017233732",
            "(02)98412345678908(3102)001723(37)32",
        ),
        (
            {"01": "58425876097843", "10": "123456", "37": "18", "3900": "42", "3920": "12"},
            "015842587609784310123456\x1d3718\x1d390042\x1d392012",
            "(01)58425876097843(10)123456(37)18(3900)42(3920)12",
        ),
    ],
)
def test_element_strings_are_as_published(
    elements: dict[str, str], encoded: str, printed: str
) -> None:
    assert element_string(elements) == encoded
    assert bracketed(elements) == printed
    for text in (encoded, printed, f"]C1{encoded}", f"]d2\x1d{encoded}", f"]Q3{encoded}"):
        assert read_elements(text) == elements


# python-stdnum drops brackets wherever they stand, so they are left out here.
UNBRACKETED = st.text(re.sub("[()]", "", CSET_82), min_size=1, max_size=20)


@given(UNBRACKETED, UNBRACKETED)
def test_python_stdnum_reads_what_we_write(lot: str, serial: str) -> None:
    elements = {"01": GTIN, "17": "281231", "10": lot, "21": serial}
    encoded = element_string(elements)
    assert read_elements(f"]d2{encoded}") == elements
    known = gs1_128.info(encoded, separator="\x1d")
    assert (known["01"], known["10"], known["21"]) == (GTIN, lot, serial)


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("]C101095212345", "01095212345"),
        (f"]d201{GTIN}99X", "99X"),
        (f"01{GTIN}17BEST", "17BEST"),
        (f"(01){GTIN}(10)LOT 5", "10LOT 5"),
        (f"(01){GTIN}(98)A", "98A"),
        (f"01{GTIN}10{'A' * 100}", f"10{'A' * 55}..."),
    ],
)
def test_element_strings_that_cannot_be_read_are_refused(text: str, rest: str) -> None:
    assert refused(lambda: read_elements(text), "code") == (
        f"This GS1 code cannot be read from {rest} on: type the lot's code instead."
    )


def test_an_element_string_with_a_misread_number_is_refused() -> None:
    # Source of the wrong number: the tests of python-stdnum.
    assert refused(lambda: read_elements("(01)38425876095079"), "code") == (
        "38425876095079 is misread: its last digit does not fit the rest. Scan or type it again."
    )
    assert refused(lambda: element_string({"01": "38425876095079"})).startswith("38425876095079")


def test_an_element_that_does_not_fit_is_refused_before_printing() -> None:
    assert refused(lambda: bracketed({"17": "31 Dec"})) == (
        "31 Dec cannot be printed as USE BY (AI 17) of a GS1 code: shorten it, and use letters, "
        "digits and plain signs without blanks."
    )
    assert refused(lambda: element_string({"9": "x"})).startswith(
        "x cannot be printed as an element (AI 9) of a GS1 code"
    )


@pytest.mark.parametrize(
    "text",
    ["D26-0611-Y", "https://honey.example/t/D26-0611-Y", "]Q1D260611Y", "0611", "", "/01/", "(1)"],
)
def test_what_is_no_gs1_code_is_left_to_others(text: str) -> None:
    assert read_elements(text) is None


# Numbers of logistic units, and retail codes.

SSCC = "106141411234567897"


def test_a_unit_is_numbered_as_published() -> None:
    """Source: bwipp wiki, SSCC 106141411234567897, of company prefix 0614141."""
    assert make_sscc("0614141", 1_123456789) == SSCC
    assert make_sscc("0614141", 0) == "006141410000000005"
    assert ean.calc_check_digit(make_sscc("9521234", 17)[:-1]) == make_sscc("9521234", 17)[-1]


def test_numbers_count_on_into_the_extension_digit_and_never_meet() -> None:
    numbers = [make_sscc("952123456789", number) for number in range(9_990, 10_010)]
    assert len(set(numbers)) == 20
    assert numbers[9].startswith("0952123456789" + "9999")
    assert numbers[10].startswith("1952123456789" + "0000")
    assert refused(lambda: make_sscc("952123456789", 100_000), "gs1_prefix") == (
        "The company prefix 952123456789 has no more numbers for cases and pallets: ask GS1 for a "
        "shorter one and enter it in Setup."
    )


def test_a_company_prefix_is_read_with_blanks() -> None:
    assert parse_company_prefix(" 952 1234 ") == "9521234"
    assert parse_company_prefix("") == ""


@pytest.mark.parametrize("text", ["952", "9521234567890", "95X1234"])
def test_what_is_no_company_prefix_is_refused(text: str) -> None:
    assert refused(lambda: parse_company_prefix(text), "gs1_prefix") == (
        f"{text} is not a GS1 company prefix: type the 4 to 12 digits of your GS1 certificate."
    )


@pytest.mark.parametrize(
    "text",
    [
        f"]C100{SSCC}",
        f"]d200{SSCC}\x1d10J26-0147-M",
        f"00{SSCC}",
        f"(00){SSCC}",
        "(00) 1 0614141 123456789 7",
        SSCC,
        f"https://id.gs1.org/00/{SSCC}",
        f"]Q3HTTPS://HONEY.EXAMPLE/00/{SSCC}",
    ],
)
def test_a_units_number_is_read_however_it_comes(text: str) -> None:
    assert sscc_in(text) == SSCC


@pytest.mark.parametrize(
    "text", ["D26-0611-Y", "", "Tank 9", f"01{GTIN}10A", "106141411234567898", "9521234543213"]
)
def test_what_is_no_units_number_is_none(text: str) -> None:
    assert sscc_in(text) == ""


@pytest.mark.parametrize(
    "text",
    ["]E09521234543213", "9521234543213", "0 9521234 54321 3", f"]d201{GTIN}", f"(01){GTIN}"],
)
def test_a_retail_code_is_read_into_14_digits(text: str) -> None:
    assert trade_item_in(text) == GTIN


@pytest.mark.parametrize("text", ["]E09521234543214", "D26-0611-Y", "", "Drum 12345678", "]d2019"])
def test_what_is_no_retail_code_is_none(text: str) -> None:
    assert trade_item_in(text) == ""
