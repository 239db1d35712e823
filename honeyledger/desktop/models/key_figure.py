"""A figure that stands out on a page, and what it is."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class KeyFigure:
    """A figure with its unit, and what it is."""

    figure: str
    meaning: str
