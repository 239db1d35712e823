"""Every pair of colours in use can be read, and the measures are those of the specification."""

import re
from pathlib import Path

import pytest

from honeyledger.desktop import tokens
from honeyledger.desktop.colouring import contrast
from honeyledger.desktop.tokens import DARK, LIGHT, Density, Theme, Type, grid, type_size

# (text or mark, ground, least in light, least in dark): the contrasts the design promises,
# rounded down; WCAG 2.2 asks for 4.5 for text and 3 for the edges of controls.
PAIRS = (
    ("ink", "sheet", 16.6, 13.8),
    ("ink", "ground", 14.1, 15.4),
    ("ink", "well", 15.3, 12.2),
    ("ink2", "sheet", 7.6, 7.7),
    ("ink2", "ground", 6.5, 8.6),
    ("ink2", "well", 7.0, 6.8),
    ("ink2", "foot", 5.9, 8.7),
    ("ink2", "act_tint", 6.4, 5.8),
    ("on_mast", "mast", 14.1, 16.2),
    ("on_mast2", "mast", 8.3, 9.1),
    ("mast_edge", "mast", 4.5, 4.4),
    ("edge", "sheet", 4.9, 5.0),
    ("edge", "well", 4.5, 4.4),
    ("edge", "ground", 4.1, 5.6),
    ("act", "sheet", 8.3, 8.2),
    ("act", "ground", 7.1, 9.2),
    ("act", "act_tint", 6.9, 6.2),
    ("act_down", "on_act", 10.9, 10.6),
    ("on_act", "act", 8.3, 8.6),
    ("act_tint", "ink", 13.8, 10.4),
    ("focus", "sheet", 7.6, 8.7),
    ("focus", "ground", 6.4, 9.7),
    ("focus_mast", "mast", 8.3, 10.3),
    ("alert", "sheet", 6.8, 7.8),
    ("alert", "alert_tint", 5.8, 7.6),
    ("alert", "band", 6.5, 8.3),
    ("alert", "act_tint", 5.6, 5.9),
    ("alert_tint", "ink", 14.2, 13.4),
    ("alert_tint", "ink2", 6.5, 7.5),
    ("hold", "sheet", 9.9, 9.1),
    ("hold", "hold_tint", 8.3, 8.4),
    ("hold", "band", 9.4, 9.6),
    ("hold", "act_tint", 8.2, 6.8),
    ("hold_tint", "ink", 14.0, 12.8),
    ("hold_tint", "ink2", 6.4, 7.2),
    ("on_state", "alert", 6.8, 8.0),
    ("on_state", "hold", 9.9, 9.2),
    ("honey_edge", "sheet", 8.0, 8.0),
    ("honey_edge", "band", 7.6, 8.4),
)


@pytest.mark.parametrize(("one", "other", "light", "dark"), PAIRS)
def test_each_pair_of_colours_has_the_contrast_it_promises(
    one: str, other: str, light: float, dark: float
) -> None:
    for theme, least in ((LIGHT, light), (DARK, dark)):
        found = contrast(getattr(theme, one), getattr(theme, other))
        assert found >= least, f"{one} on {other} in {theme.name} is {found:.2f}"


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_series_of_a_chart_stand_out_from_the_sheet(theme: Theme) -> None:
    least = 3.2 if theme is LIGHT else 3.3
    assert all(contrast(one.colour, theme.sheet) >= least for one in theme.series)
    assert len({(one.dashes, one.width) for one in theme.series}) == 5
    assert len({one.marker for one in theme.series}) == 5


def test_no_other_module_of_the_window_names_a_colour_or_a_size_of_type() -> None:
    package = Path(tokens.__file__).parent
    hexes = re.compile(r"""["']#[0-9A-Fa-f]{3,8}["']""")
    sizes = re.compile(r"setP(?:ixel|oint)SizeF?\(\s*\d|font-size:\s*\d")
    guilty = []
    for path in sorted(package.rglob("*.py")):
        if path.name == "tokens.py":
            continue
        text = path.read_text("utf-8")
        if hexes.search(text) or sizes.search(text):
            guilty.append(path.name)
    assert guilty == []


def test_no_type_is_smaller_than_fifteen_pixels() -> None:
    assert min(type_size(kind, density).px for kind in Type for density in Density) == 15


@pytest.mark.parametrize(
    ("width", "columns", "margin", "column"),
    [(1600, 12, 32, 106.0), (1280, 12, 24, 88.0), (1024, 8, 16, 113.5), (853, 1, 16, 821.0)],
)
def test_the_grid_is_that_of_the_width(
    width: int, columns: int, margin: int, column: float
) -> None:
    made = grid(width)
    assert (made.columns, made.margin, made.column) == (columns, margin, column)


def test_columns_and_gutters_fill_the_page_between_its_margins() -> None:
    for width in (1200, 1280, 1599, 1600, 1920, 2560):
        made = grid(width)
        assert made.span(12) + 2 * made.margin == pytest.approx(width)
    assert grid(1024).span(8) + 2 * 16 == pytest.approx(1024)


def test_controls_and_rows_are_large_enough_for_gloves() -> None:
    for density in Density:
        assert tokens.control_height(density) >= tokens.TARGET_LEAST
        assert tokens.row_height(density) >= tokens.TARGET_LEAST
    assert tokens.button_gap(Density.FLOOR) == 16
