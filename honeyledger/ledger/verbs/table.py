"""Every verb by its kind: the module in which its function stands, loaded when it is first used.

A question is answered, and the window stands, before any verb is needed.
"""

import importlib
from collections.abc import Callable
from functools import cache
from typing import Any

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Act, Entry
from honeyledger.ledger.state import State

Book = Callable[[Any, Booking], None]

VERBS = {
    "register": "registers",
    "receive": "dock",
    "split": "dock",
    "join": "dock",
    "count": "dock",
    "open run": "floor",
    "load": "floor",
    "wet out": "floor",
    "cappings": "floor",
    "room log": "hot_room",
    "dry": "hot_room",
    "set aside": "leftovers",
    "melt": "by_products",
    "cut": "by_products",
    "chunk": "by_products",
    "blend": "blending",
    "warm": "warming",
    "supply": "supplies",
    "pool": "owners",
    "settle": "owners",
    "wash": "floor",
    "stop": "stops",
    "close run": "floor",
    "fill": "drums",
    "bung": "drums",
    "reweigh": "drums",
    "skim": "drums",
    "purchase": "bought_in",
    "send back": "bought_in",
    "opening stock": "opening",
    "found drum": "opening",
    "move": "stocktake",
    "stocktake": "stocktake",
    "change-over": "bottling",
    "bottle": "bottling",
    "label": "jars",
    "complaint": "jars",
    "judge claims": "claiming",
    "pack": "packing",
    "unpack": "packing",
    "dispatch": "dispatch",
    "take back": "dispatch",
    "discard": "dispatch",
    "approve": "trade",
    "buyer's weight": "trade",
    "transfer title": "trade",
    "empties": "trade",
    "supers on": "yards",
    "treat": "yards",
    "feed": "yards",
    "disease": "yards",
    "certify": "yards",
    "weather": "weather",
    "printed": "printing",
    "check": "checks",
    "measure": "measuring",
    "calibrate": "measuring",
    "sample": "quality",
    "hold": "quality",
    "clear": "quality",
    "release": "quality",
    "open recall": "recalls",
    "recall notice": "recalls",
    "recall answer": "recalls",
    "close recall": "recalls",
    "narrow": "corrections",
    "amend": "amending",
    "reverse": "corrections",
}
"""For each kind of facts the module of `book_<kind>`."""


@cache
def verb_of(kind: str) -> Book | None:
    """The function that books facts of a kind; None where there is no such verb."""
    if kind not in VERBS:
        return None
    module = importlib.import_module(f"honeyledger.ledger.verbs.{VERBS[kind]}")
    name = kind.replace(" ", "_").replace("-", "_").replace("'", "")
    verb: Book = getattr(module, f"book_{name}")
    return verb


def book(facts: Any, state: State, act: Act, recorded_ms: int, part: int = 0) -> Entry:
    """The entry a verb's facts make on this state. Pure: the state is only read.

    Raises:
        Refusal: the facts cannot be; the sentence says what to do.
        BrokenRule: no such verb, or the booking broke an invariant (a bug).
    """
    verb = verb_of(getattr(facts, "kind", ""))
    if verb is None:
        raise BrokenRule(f"no verb books {type(facts).__name__}")
    booking = Booking(state, act, recorded_ms, part)
    verb(facts, booking)
    return booking.entry(facts.kind, facts)
