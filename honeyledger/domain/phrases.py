"""The program's own words in a row for people: English text that knows what it was made of.

A phrase is a plain text to the ledger, the terminal and everything that reads its answers. The
window can say it again in another language, since its template and what filled it are kept.
"""

from collections.abc import Iterable, Mapping


class Phrase(str):
    """A text with the template it came from.

    Args:
        template: the words, with named places in braces.
        facts: what fills the places; phrases among them are said again, too.
    """

    template: str
    facts: Mapping[str, object]

    def __new__(cls, template: str, facts: Mapping[str, object]) -> "Phrase":
        """The English text, and beside it what it was made of."""
        made = super().__new__(cls, template.format(**facts) if facts else template)
        made.template = template
        made.facts = facts
        return made

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle by parts: a row may cross from a worker to the face."""
        return (Phrase, (self.template, dict(self.facts)))


def phrase(template: str, /, **facts: object) -> Phrase:
    """A phrase of the program: its template is a plain literal, so that it can be translated."""
    return Phrase(template, facts)


def joined(parts: Iterable[str], between: str = ", ") -> Phrase:
    """Texts one behind the other, each said in its own words."""
    facts = {f"part{at}": part for at, part in enumerate(parts)}
    return Phrase(between.join(f"{{{name}}}" for name in facts), facts)
