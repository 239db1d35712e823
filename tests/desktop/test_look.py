"""The typefaces are the program's own, figures have one width, and motion can be stilled."""

import threading
from pathlib import Path

import pytest
from PySide6.QtGui import QFont

from honeyledger.desktop import look, tokens
from honeyledger.desktop.tokens import Density, Type


def test_a_missing_typeface_is_named(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="Honeyledger Sans"):
        look.load_typefaces(tmp_path)


@pytest.mark.parametrize("kind", list(Type))
@pytest.mark.parametrize("density", list(Density))
def test_every_size_of_type_has_figures_of_one_width(kind: Type, density: Density) -> None:
    for mono in (False, True):
        font = look.font(kind, density, mono=mono)
        assert font.pixelSize() == tokens.type_size(kind, density).px
        widths = {
            round(look.metrics(font).horizontalAdvance(figure), 3) for figure in "0123456789"
        }
        assert len(widths) == 1


def test_the_companion_for_codes_sets_every_letter_on_one_width() -> None:
    metrics = look.metrics(look.font(Type.BODY, mono=True))
    assert len({round(metrics.horizontalAdvance(letter), 3) for letter in "IlO0B8-"}) == 1


@pytest.mark.parametrize("kind", [Type.BODY, Type.CAPTION])
def test_a_kept_font_and_a_copy_of_it_measure_alike_also_when_forgotten(kind: Type) -> None:
    for _again in range(2):
        kept = look.font(kind)
        assert look.metrics(kept) is look.metrics(look.font(kind))
        copy = look.metrics(QFont(kept)).horizontalAdvance("1,234 kg")
        assert look.metrics(kept).horizontalAdvance("1,234 kg") == copy
        assert look.advance("1,234 kg", kept) == copy
        look.forget_fonts()
        # Another font may stand at the same place in memory then.
        assert look._own_advance.cache_info().currsize == 0


@pytest.mark.parametrize("kind", list(Type))
@pytest.mark.parametrize("mono", [True, False])
def test_a_text_is_as_wide_as_the_typeface_makes_it(kind: Type, mono: bool) -> None:
    for weight in (tokens.REGULAR, 700):
        font = look.font(kind, weight=weight, mono=mono)
        for text in ("", "-", "D26", "00382", "J26-0147-00382-F", "1\u2006234 kg", "Öl", "A\tB\n"):
            plain = look.metrics(QFont(font)).horizontalAdvance(text)
            for _again in range(2):
                assert look.advance(text, font) == pytest.approx(plain, abs=0.01)
            assert look.advance(text, QFont(font)) == plain


def test_a_colour_is_that_of_the_theme_worn() -> None:
    assert look.colour("sheet").name().upper() == tokens.LIGHT.sheet
    look.change(to=tokens.DARK)
    assert look.colour("sheet").name().upper() == tokens.DARK.sheet
    assert look.theme() is tokens.DARK


def test_another_thread_paints_for_paper_with_a_theme_and_fonts_of_its_own() -> None:
    look.change(to=tokens.DARK)
    seen: list[object] = []

    def paint() -> None:
        with look.on_paper():
            seen.extend((look.theme(), look.font(Type.BODY), look.colour("sheet").name()))
        seen.append(look.theme())

    other = threading.Thread(target=paint)
    other.start()
    other.join()
    assert seen[0] is tokens.LIGHT
    assert seen[1] == look.font(Type.BODY)
    assert seen[1] is not look.font(Type.BODY), "a font of Qt's is for one thread"
    assert str(seen[2]).upper() == tokens.LIGHT.sheet
    assert seen[3] is look.theme() is tokens.DARK


def test_with_reduced_motion_nothing_takes_time() -> None:
    assert look.duration(280) == 0
    look.change(moving=True)
    assert look.duration(280) == 280
    assert look.now().moving
