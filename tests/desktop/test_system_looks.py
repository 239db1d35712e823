"""What the system asks of all its programs is obeyed, high contrast before anything."""

import pytest
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import look, system_looks, tokens
from honeyledger.desktop.colouring import contrast
from tests.desktop.tour_contrast import contrasty


@pytest.mark.parametrize(("choice", "theme"), [("light", tokens.LIGHT), ("dark", tokens.DARK)])
def test_a_setting_chooses_the_theme(choice: str, theme: tokens.Theme) -> None:
    assert system_looks.theme_for(choice) is theme


def test_where_the_system_forces_its_colours_no_other_is_used() -> None:
    theme = system_looks.forced_theme(contrasty())
    assert theme.sheet == theme.ground == theme.alert_tint == QColor("black").name()
    assert theme.ink == theme.hold == theme.edge == QColor("white").name()
    for one, other in (("ink2", "well"), ("on_act", "act"), ("on_state", "alert")):
        assert contrast(getattr(theme, one), getattr(theme, other)) >= 7
    assert theme.honey_hatch == tokens.LIGHT.honey_hatch, "honey stays honey"
    assert min(contrast(one.colour, theme.sheet) for one in theme.series) >= 3
    assert system_looks.wants_contrast() in (True, False)


def test_a_system_that_asks_for_high_contrast_is_obeyed_whatever_the_setting(
    dressed: QApplication,
) -> None:
    own = system_looks.system_palette()
    assert own.color(QPalette.ColorRole.Highlight) != look.colour("act"), "not what is worn"
    assert dressed.palette().color(QPalette.ColorRole.Highlight) == look.colour("act")
    for choice in ("light", "dark", "system"):
        theme = system_looks.theme_for(choice, contrast=True)
        assert theme.name == "forced"
        assert theme.sheet == own.color(QPalette.ColorRole.Base).name()
    assert system_looks.theme_for("dark", contrast=False) is tokens.DARK


def test_as_the_system_is_a_choice_too() -> None:
    assert system_looks.theme_for("system") in (tokens.LIGHT, tokens.DARK)
    assert system_looks.wants_motion() in (True, False)
