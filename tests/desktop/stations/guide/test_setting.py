"""A page is set in our own type, in the colours of the theme in use."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop import look, style, tokens
from honeyledger.desktop.stations.guide.pages import page_of
from honeyledger.desktop.stations.guide.setting import page_html, style_sheet, tr


def test_marks_become_what_they_stand_for() -> None:
    made = page_html(
        page_of("x", "# A & B\n\nPress `F2`, see [Dock](dock.md): **Go**.\n\n- one\n- two")
    )
    assert made == (
        '<h1>A &amp; B</h1><p>Press <span class="key">F2</span>, see <a href="dock">Dock</a>: '
        "<b>Go</b>.</p><ul><li>one</li><li>two</li></ul>"
    )


def test_lists_of_both_kinds_end_where_they_end() -> None:
    made = page_html(page_of("x", "# X\n\n1. one\n\n- two\n\ntext"))
    assert made == "<h1>X</h1><ol><li>one</li></ol><ul><li>two</li></ul><p>text</p>"


def test_a_caution_says_so_in_words_and_in_its_own_colours() -> None:
    made = page_html(page_of("x", "# X\n\n> Hot."))
    assert f"{tr('Caution.')}</b> Hot.</td>" in made
    assert look.colour("alert_tint").name() in made


def test_the_sheet_follows_the_theme(light: QApplication) -> None:
    before = style_sheet()
    assert look.SANS in before
    style.wear(light, tokens.DARK)
    assert style_sheet() != before


def test_a_picture_stands_with_what_it_shows() -> None:
    made = page_html(page_of("x", "# X\n\n![A jar](../a.png)"))
    assert made == '<h1>X</h1><p><img src="../a.png" width="560"><br>A jar</p>'
