"""A long answer made in a process of its own, so that what it sorts and frees holds no window.

The question goes there by name, what it is asked with as plain data, and only its answer comes
back, which therefore has to be small. It is told of the ledger as it stands when the process reads
it. Where a second process does not pay, cannot be had or fails by itself, the answer is made here.
"""

import pickle
import signal
import sys
from collections.abc import Callable

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.persistence.beside import pays_off, reading_there, told_to
from honeyledger.persistence.engine import Where
from honeyledger.persistence.store import SqlView
from honeyledger.services.store import Answer, View

ENDED = Sentence(
    "answer-cut-short",
    "This was ended before all of it was worked out, so nothing is shown. Open the page again; "
    "close other programs first if the computer is short of memory.",
)
_START = (
    "import pickle, sys; sys.path[:] = pickle.load(sys.stdin.buffer); "
    "from honeyledger.persistence.answering import answer_there; answer_there()"
)


def answer_beside(
    where: Where,
    entries: int,
    question: Callable[[View], Answer],
    is_wanted: Callable[[], bool],
    here: Callable[[Callable[[View], Answer]], Answer],
) -> Answer:
    """The answer, from the other process where one pays.

    Args:
        question: a function of a module, or a `partial` of one with plain data.
        is_wanted: asked now and then; once it is not, the process is ended.
        here: asks a question in this process.

    Raises:
        Refusal: it was ended, from outside or since nobody wants it.
    """
    if not pays_off(where, entries):
        return here(question)

    def look(_: int) -> None:
        if not is_wanted():
            raise Refusal(ENDED, field="house")

    with told_to(_START, where, question) as other:
        found = other.found(look, ENDED)
    if found is None:
        return here(question)
    (answer,) = found
    return answer  # type: ignore[no-any-return]


def answer_there() -> None:
    """In the other process: answer what its input asks."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # that key is for the first process
    where, question = pickle.load(sys.stdin.buffer)
    with reading_there(where) as (cursor, dialect):
        answer = question(SqlView(cursor, dialect))
    pickle.dump((answer,), sys.stdout.buffer)
    sys.stdout.buffer.flush()
