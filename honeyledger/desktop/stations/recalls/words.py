"""The words of this page, in the language in use."""

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.counting import counted

__all__ = ["counted", "tr"]


def tr(text: str) -> str:
    """A word of this page."""
    return QCoreApplication.translate("recalls", text)
