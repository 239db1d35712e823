"""Commands of the terminal, as they are named to a person: what each does and how it is typed."""

from dataclasses import dataclass

from honeyledger.domain.codes import next_code

_EXAMPLE_SEASON = 26


@dataclass(frozen=True, slots=True)
class Command:
    """Something to be done in a terminal.

    Args:
        does: what it does.
        line: how it is typed; `{code}` is the chosen row's, `{S}` any pull's, `{D}` any drum's.
        letter: the letter of the code that the line is about.
        state: only a row in this state can be meant.
    """

    does: str
    line: str
    letter: str = ""
    state: str = ""

    def typed(self, code: str) -> str:
        """The line as it is typed, about a code; about a house's first one, where none is."""
        others = {letter: example(letter) for letter in "SDGJR"}
        return self.line.format(code=code or example(self.letter or "S"), **others)


def example(letter: str) -> str:
    """A code of this letter as a house's first one would be."""
    return str(next_code(letter, _EXAMPLE_SEASON, 0))
