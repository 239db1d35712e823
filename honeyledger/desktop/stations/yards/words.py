"""The words of this station, in the language in use."""

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.counting import bare, counted

__all__ = ["bare", "counted", "tr"]


def tr(text: str) -> str:
    """A word of this station."""
    return QCoreApplication.translate("yards", text)
