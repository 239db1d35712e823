"""The three ways things go wrong.

A `Refusal` is the user's to mend: one sentence that says what to do. A `BrokenRule` is our bug.
`Damage` means stored data is not what it was when it was sealed.
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sentence:
    """A refusal's wording, kept once, where it is defined.

    Args:
        key: short stable name, hyphenated ("unknown-code").
        text: the sentence, with named places in braces ("{code} is not a code of this house.").
    """

    key: str
    text: str

    def __post_init__(self) -> None:
        """Known by its key from here on: an entry keeps the key of what was said with it."""
        _KNOWN[self.key] = self


def sentence_of(key: str) -> Sentence | None:
    """The sentence of a key, as far as its module is loaded."""
    return _KNOWN.get(key)


_KNOWN: dict[str, Sentence] = {}


class Refusal(Exception):
    """Something the user can put right. Nothing has been written when it is raised.

    Args:
        sentence: the wording.
        field: the name of the fact that was refused, so that a form can put the focus there.
        offers: codes the user may have meant; offered, never chosen.
        facts: what fills the sentence's places.
    """

    def __init__(
        self,
        sentence: Sentence,
        *,
        field: str = "",
        offers: Sequence[str] = (),
        **facts: object,
    ) -> None:
        self.sentence = sentence
        self.key = sentence.key
        self.field = field
        self.offers = tuple(offers)
        self.facts = facts
        self.text = sentence.text.format(**facts)
        super().__init__(self.text)

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle by parts: a refusal may cross from a worker thread or process to the face."""
        return (_refusal_again, (self.sentence, self.field, self.offers, self.facts))


def _refusal_again(
    sentence: Sentence, field: str, offers: Sequence[str], facts: dict[str, object]
) -> Refusal:
    return Refusal(sentence, field=field, offers=offers, **facts)


class BrokenRule(Exception):
    """A rule of the ledger would be broken by our own code: a bug, never the user's doing."""


class Damage(Exception):
    """Stored data is not what was sealed; the message names the entry and the table."""
