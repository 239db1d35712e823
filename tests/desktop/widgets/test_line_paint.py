"""A place's figure keeps its digits and gives up its unit; badges sit like closed valves."""

from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.line_figures import Badge, PlaceFigure
from honeyledger.desktop.models.line_layout import Box, Shown, lay_out_line
from honeyledger.desktop.widgets import line_paint
from tests.desktop.gallery import line_figures

DRUMS = PlaceFigure("drums", "Drums", 41_300, "kg", "on hand")


def _words(shown: Shown, room: float) -> list[str]:
    geometry = lay_out_line(line_figures(), 1920)
    return [run.text for run in line_paint.figure_runs(DRUMS, geometry, shown, room)]


def test_the_qualifier_goes_first_then_the_unit_and_never_a_figure() -> None:
    assert _words(Shown.FULL, 300) == ["41\u202f300", "\u00a0kg on hand"]
    assert _words(Shown.FULL, 110) == ["41\u202f300", "\u00a0kg"]
    assert _words(Shown.USUAL, 40) == ["41\u202f300"]


def test_a_badge_is_a_pill_of_24_with_a_halo_in_its_states_colour() -> None:
    image = QImage(120, 60, QImage.Format.Format_RGB32)
    image.fill(look.colour("edge"))
    painter = QPainter(image)
    badge = Badge(Mark.HOLD, 3, "on hold")
    right = line_paint.paint_badge(painter, badge, 20, 30)
    painter.end()
    assert right == 20 + line_paint.badge_width(badge)
    hold, halo = look.colour("hold").name(), look.colour("band").name()
    ground = look.colour("edge").name()
    column = [image.pixelColor(32, y).name() for y in range(60)]
    assert [y for y in range(60) if column[y] != ground] == list(range(16, 44))
    assert column[16] == halo
    assert column[19] == hold


def test_at_most_two_badges_stand_side_by_side() -> None:
    def drawn(count: int) -> QImage:
        image = QImage(300, 60, QImage.Format.Format_RGB32)
        image.fill(look.colour("band"))
        place = PlaceFigure(
            "drums", "Drums", 1, "kg", badges=tuple(Badge(Mark.HOLD, 3) for _ in range(count))
        )
        painter = QPainter(image)
        line_paint.paint_badges(painter, place, 10, 30)
        painter.end()
        return image

    assert drawn(1) != drawn(2)
    assert drawn(2) == drawn(3)


def test_an_open_place_opens_into_the_page() -> None:
    image = QImage(200, 88, QImage.Format.Format_RGB32)
    image.fill(look.colour("band"))
    painter = QPainter(image)
    box = Box(40, 0, 100, 88)
    line_paint.paint_ground(painter, box, is_open=True, hovered=False)
    line_paint.paint_rules(painter, lay_out_line(line_figures(), 1280), box)
    painter.end()
    assert image.pixelColor(90, 1).name() == look.colour("act").name()
    assert image.pixelColor(90, 87).name() == look.colour("ground").name()
    assert image.pixelColor(10, 87).name() == look.colour("rule").name()
    assert line_paint.rect_of(box).right() == 140
