"""A list on which each thing stands once: what is given twice would be taken twice.

Only where something is taken, given or judged. What is merely named on a walk (vessels washed,
containers back, codes scanned in a row) may be scanned again: a second scan says nothing new.
"""

from collections.abc import Callable, Iterable

from honeyledger.domain.refusals import Refusal, Sentence

TWICE_ON_LIST = Sentence(
    "twice-on-list",
    "{code} stands twice on this list. Leave it there once, with its whole amount.",
)


def check_once(things: Iterable[str], field: str, called: Callable[[str], str] = str) -> None:
    """Nothing on a list is there a second time; `called` says what a person calls it.

    Raises:
        Refusal: something is.
    """
    seen = set[str]()
    for thing in things:
        if thing in seen:
            raise Refusal(TWICE_ON_LIST, field=field, code=called(thing))
        seen.add(thing)
