"""Typefaces: what they can print, how wide it is, where lines break."""

from pathlib import Path

import pytest
from reportlab.pdfbase.ttfonts import TTFontFile

from honeyledger.documents import fonts
from honeyledger.documents.fonts import (
    CODE,
    CODE_HEAVY,
    HEAVY,
    STRONG,
    TEXT,
    elided,
    width_mm,
    wrapped,
)
from honeyledger.domain.refusals import Refusal
from tests.support import printing

FACES = [TEXT, STRONG, HEAVY, CODE, CODE_HEAVY]


@pytest.fixture(autouse=True)
def _loaded() -> None:
    printing.typefaces()


@pytest.mark.parametrize("face", FACES)
def test_all_figures_are_equally_wide(face: str) -> None:
    assert len({width_mm(figure, face, 10) for figure in "0123456789"}) == 1


@pytest.mark.parametrize("face", [CODE, CODE_HEAVY])
def test_codes_are_set_in_one_width(face: str) -> None:
    assert len({width_mm(sign, face, 10) for sign in "ABCDEFGHIJKLMNOPQRSTUVWXYZ-0Il"}) == 1


@pytest.mark.parametrize("face", FACES)
def test_capitals_have_the_height_that_layouts_reckon_with(face: str) -> None:
    file = TTFontFile(str(printing.RESOURCES / "fonts" / f"{face}.ttf"))
    assert file.capHeight / 1000 == pytest.approx(fonts.CAPITAL, abs=0.001)


@pytest.mark.parametrize(
    "text",
    ["Žluťoučký kůň", "Blütenhonig, Straße", "Μέλι ανθέων", "Липовый мёд", "≈ 17.6 % ½ ×"],
)
def test_latin_greek_and_cyrillic_can_be_printed(text: str) -> None:
    assert printing.typefaces().checked(text, TEXT) == text


def test_a_sign_that_would_be_dropped_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        printing.typefaces().checked("Honey 蜜 from the hill", TEXT)
    assert refused.value.text == (
        'Labels and papers cannot print "蜜" (cjk unified ideograph-871c, U+871C) in "Honey 蜜 '
        'from the hill": write it without that sign.'
    )


@pytest.mark.parametrize(
    ("text", "called"),
    [
        ("Bee 🐝 yard", '"🐝" (honeybee, U+1F41D)'),
        ("ἄνθη", '"ἄ" (greek small letter alpha with psili and oxia, U+1F04)'),
        ("שדה", '"ש" (hebrew letter shin, U+05E9)'),
        ("👩🏽‍🌾", '"👩" (woman, U+1F469)'),
        ("private \ue000", '"\ue000" (U+E000)'),
        ("over\u20ddlaid", '"\u20dd" (combining enclosing circle, U+20DD)'),
    ],
)
def test_a_sign_is_named_for_who_cannot_see_it(text: str, called: str) -> None:
    with pytest.raises(Refusal) as refused:
        printing.typefaces().checked(text, TEXT)
    assert refused.value.text.startswith(f"Labels and papers cannot print {called} in ")


# The letters beyond A to Z that languages of honey countries write with; from common knowledge.
LETTERS = {
    "Czech, Slovak": "áčďéěíňóřšťúůýžľĺŕäô",
    "French": "àâæçéèêëîïôœùûüÿ",
    "German": "äöüß",
    "Hungarian": "áéíóöőúüű",
    "Polish": "ąćęłńóśźż",
    "Romanian": "ăâîșț",
    "Baltic": "āčēģīķļņšūžąęėįųõäöü",
    "Nordic": "åäöøæáðéíóúýþ",
    "Portuguese, Spanish": "ãâáàçéêíóôõúñü",
    "South Slavic": "čćđšž",
    "Turkish": "çğıöşü",
    "Maltese, Welsh": "ċġħżŵŷ",
    "Greek": "αβγδεζηθικλμνξοπρσςτυφχψωάέήίόύώϊϋΐΰ",
    "Bulgarian, Russian": "абвгдеёжзийклмнопрстуфхцчшщъыьэюя",
    "Ukrainian, Belarusian": "ґєіїў",
    "Serbian, Macedonian": "ђјљњћџѓќѕ",
    "Kazakh": "әғқңөұүһі",
}


@pytest.mark.parametrize("face", [TEXT, STRONG, HEAVY])
@pytest.mark.parametrize("language", LETTERS)
def test_every_letter_of_a_language_can_be_printed_small_and_large(
    language: str, face: str
) -> None:
    faces = printing.typefaces()
    large = "".join(one.upper() for one in LETTERS[language] if len(one.upper()) == 1)
    for text in (LETTERS[language], large):
        assert faces.checked(text, face) == text
    # A letter takes room; what has none would be left out in silence.
    assert all(width_mm(letter, face, 10) > 0.3 for letter in LETTERS[language])


def test_every_face_is_asked_for_itself() -> None:
    """The monospaced companion has no Greek."""
    assert printing.typefaces().checked("Ω", TEXT) == "Ω"
    with pytest.raises(Refusal):
        printing.typefaces().checked("Ω", CODE)


def test_signs_are_composed_and_blanks_made_single() -> None:
    assert printing.typefaces().checked(" Kla\u0301ra\t\n honey ", TEXT) == "Klára honey"


def test_a_missing_typeface_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        fonts.Typefaces(tmp_path)
    assert refused.value.text == (
        "The typeface HoneyledgerSans-Regular.ttf is missing: install the program again."
    )


def test_lines_break_at_blanks_and_hold_the_room() -> None:
    lines = wrapped("Clover and basswood honey, creamed", TEXT, 10, 30)
    assert lines == ["Clover and", "basswood honey,", "creamed"]
    assert all(width_mm(line, TEXT, 10) <= 30 for line in lines)


def test_a_word_too_long_is_broken_and_loses_nothing() -> None:
    lines = wrapped("Sonnenblumenblütenhonigspezialität", TEXT, 12, 20)
    assert len(lines) > 2
    assert "".join(lines) == "Sonnenblumenblütenhonigspezialität"
    assert all(width_mm(line, TEXT, 12) <= 20 for line in lines)


def test_a_long_word_breaks_at_its_hyphens_but_a_code_does_not() -> None:
    assert wrapped("Wolverhampstead-on-the-Marsh", TEXT, 10, 37)[0] == "Wolverhampstead-on-"
    assert wrapped("Drum E26-0031-K", TEXT, 10, 20) == ["Drum", "E26-0031-K"]


def test_a_figure_keeps_its_unit() -> None:
    room = width_mm("Origin: Canada 62", TEXT, 10) + 1
    assert wrapped("Origin: Canada 62 %", TEXT, 10, room) == ["Origin: Canada", "62 %"]
    assert wrapped("Yard 14 north", TEXT, 10, width_mm("Yard 14", TEXT, 10) + 1) == [
        "Yard 14",
        "north",
    ]


def test_a_name_loses_its_middle_and_only_when_it_must() -> None:
    name = "Long Meadow behind the school, north"
    assert elided(name, TEXT, 10, 100) == name
    short = elided(name, TEXT, 10, 30)
    assert short.startswith("Long M")
    assert short.endswith("north")
    assert "…" in short
    assert width_mm(short, TEXT, 10) <= 30
    assert elided(name, TEXT, 10, 0.5) == "…"
