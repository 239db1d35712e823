"""The library must not lose references: 6.12 did on Python 3.11, and crashed in minutes."""

import sys

from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication


def test_calls_that_return_nothing_keep_the_count_of_nothing(qapp: QApplication) -> None:
    assert qapp is not None
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    colour = QColor("red")
    before = sys.getrefcount(None)
    for _ in range(1000):
        painter.setPen(colour)
    after = sys.getrefcount(None)
    painter.end()
    assert after > before - 500
