"""The words of the calculator, in the language in use."""

from PySide6.QtCore import QCoreApplication


def tr(text: str) -> str:
    """A word of the calculator."""
    return QCoreApplication.translate("calculator", text)
