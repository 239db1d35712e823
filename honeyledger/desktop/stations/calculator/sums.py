"""What a sum of the calculator is made of: what is asked, what comes of it, and by which source.

A figure never stands without the line that says where it is from. What cannot be told is refused
in words, by the domain's own sentences.
"""

from collections.abc import Callable
from dataclasses import dataclass

from honeyledger.desktop.models.asked import Ask, FormTyped, Reading
from honeyledger.desktop.stations.calculator.words import tr


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure that came of a sum, what it is, and where it is from.

    Args:
        doubtful: a value from memory or at second hand went into it.
    """

    figure: str
    meaning: str
    source: str
    doubtful: bool = False


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What came of a sum; `care` is what to be careful of, "" for nothing."""

    figures: tuple[Figure, ...]
    care: str = ""


@dataclass(frozen=True, slots=True)
class Sum:
    """One sum.

    Args:
        step: what to type, said while there is nothing else to say.
        rows: what is asked, row by row.
        needs: the answers without which nothing can be told yet.
        fields: the answer a refusal is about, by its own field, where they differ.
    """

    key: str
    title: str
    step: str
    rows: tuple[tuple[Ask, ...], ...]
    needs: Callable[[FormTyped], bool]
    reckon: Callable[[FormTyped, Reading], Reckoned]
    fields: tuple[tuple[str, str], ...] = ()

    def asks(self) -> tuple[Ask, ...]:
        """All that is asked."""
        return tuple(ask for row in self.rows for ask in row)

    def begins(self) -> FormTyped:
        """The sum with nothing typed."""
        return FormTyped({ask.key: ask.usual for ask in self.asks() if ask.usual})

    def field_of(self, name: str) -> str:
        """The answer a refusal is about."""
        return dict(self.fields).get(name, name)


def typed_all(*keys: str) -> Callable[[FormTyped], bool]:
    """Whether all of these are typed."""
    return lambda typed: all(typed.text(key) for key in keys)


def second_hand() -> str:
    """What is said of a table nobody here has seen itself."""
    return tr("seen at second hand: a guide, no promise")


def from_memory() -> str:
    """What is said of a value nobody here has looked up."""
    return tr("value from memory: not to be relied on")
