"""What is usually wrong with honey that is held or called back; anything else is typed."""

from PySide6.QtCore import QCoreApplication


def wrongs() -> tuple[str, ...]:
    """The words to choose from, in the language in use."""
    return (
        QCoreApplication.translate("trace", "complaint, being looked into"),
        QCoreApplication.translate("trace", "lab result"),
        QCoreApplication.translate("trace", "glass or metal"),
        QCoreApplication.translate("trace", "wrong label"),
        QCoreApplication.translate("trace", "fermenting"),
        QCoreApplication.translate("trace", "treatment record"),
    )
