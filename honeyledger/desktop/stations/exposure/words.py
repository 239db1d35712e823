"""The words of this page, in the language in use."""

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.counting import bare, counted

__all__ = ["bare", "counted", "tr"]


def tr(text: str) -> str:
    """A word of this page."""
    return QCoreApplication.translate("exposure", text)
