"""What the system asks of all its programs: dark or light, high contrast, that nothing moves.

High contrast is obeyed whatever the settings say, for somebody needs it; the rest is asked only
where a person chose "as the system". Older Qt cannot be asked for all of it.
"""

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QPalette

from honeyledger.desktop import tokens
from honeyledger.desktop.colouring import luminance
from honeyledger.desktop.tokens import Theme

# Half way between black and white, as eyes judge it.
_DARK_TO = 0.18


def forced_theme(palette: QPalette) -> Theme:
    """The system's own few colours in every place, where it forces them.

    Shapes, words and hatches still tell all states apart; honey keeps its colours and its edge.
    """

    def of(role: QPalette.ColorRole) -> str:
        return palette.color(role).name()

    roles = QPalette.ColorRole
    ground, ink = of(roles.Base), of(roles.Text)
    chosen, on_chosen = of(roles.Highlight), of(roles.HighlightedText)
    plain = ("ground", "sheet", "well", "band", "mast", "foot", "alert_tint", "hold_tint")
    inked = ("ink", "ink2", "on_mast", "on_mast2", "mast_edge", "rule", "edge", "alert", "hold")
    colours: dict[str, Any] = dict.fromkeys(plain, ground) | dict.fromkeys(inked, ink)
    colours |= {"honey_edge": ink, "on_state": ground, "act_tint": ground}
    colours |= {"act": chosen, "act_down": chosen, "on_act": on_chosen}
    colours |= {"focus": chosen, "focus_mast": chosen}
    # Lines of a chart are the theme's own, of the one that is made for such a ground.
    own = tokens.DARK if luminance(ground) < _DARK_TO else tokens.LIGHT
    return replace(own, name="forced", **colours)


def wants_contrast() -> bool:
    """Whether the system asks for high contrast; an older Qt cannot say so."""
    hints = QGuiApplication.styleHints()
    asked = getattr(hints, "accessibility", None)
    if asked is None:
        return False
    accessibility = asked()
    return bool(accessibility.contrastPreference().name == "HighContrast")


def system_palette() -> QPalette:
    """The system's own colours, whatever is worn over them."""
    worn = QGuiApplication.palette()
    QGuiApplication.setPalette(QPalette())
    own = QGuiApplication.palette()
    QGuiApplication.setPalette(worn)
    return own


def theme_for(choice: str, *, contrast: bool | None = None) -> Theme:
    """The theme a setting asks for: "light", "dark", or "system".

    A system that asks for high contrast is obeyed whatever the setting: somebody needs it.

    Args:
        contrast: whether it does; None to ask it.
    """
    if wants_contrast() if contrast is None else contrast:
        return forced_theme(system_palette())
    if choice == "dark":
        return tokens.DARK
    if choice == "system":
        hints = QGuiApplication.styleHints()
        if hints.colorScheme() == Qt.ColorScheme.Dark:
            return tokens.DARK
    return tokens.LIGHT


def wants_motion() -> bool:
    """Whether the system says that things may move; older Qt cannot be asked, and then they do."""
    hints = QGuiApplication.styleHints()
    own = getattr(hints, "accessibility", None)
    accessibility = own() if own is not None else None
    asked = getattr(accessibility, "motionPreference", None)
    return asked is None or asked().name != "ReducedMotion"
