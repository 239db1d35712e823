"""Every verb: its facts class and the pure function that books it."""

from collections.abc import Callable
from typing import Any

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Act, Entry
from honeyledger.ledger.state import State
from honeyledger.ledger.verbs import (
    amending,
    bottling,
    corrections,
    dispatch,
    dock,
    drums,
    floor,
    quality,
    registers,
)

Book = Callable[[Any, Booking], None]

VERBS: dict[type, Book] = {
    registers.Register: registers.book_register,
    dock.Receive: dock.book_receive,
    dock.Split: dock.book_split,
    dock.Join: dock.book_join,
    dock.Count: dock.book_count,
    floor.OpenRun: floor.book_open_run,
    floor.Load: floor.book_load,
    floor.WetOut: floor.book_wet_out,
    floor.Cappings: floor.book_cappings,
    floor.Wash: floor.book_wash,
    floor.CloseRun: floor.book_close_run,
    drums.Fill: drums.book_fill,
    drums.Bung: drums.book_bung,
    drums.Reweigh: drums.book_reweigh,
    drums.Skim: drums.book_skim,
    drums.Purchase: drums.book_purchase,
    bottling.ChangeOver: bottling.book_change_over,
    bottling.Bottle: bottling.book_bottle,
    dispatch.Dispatch: dispatch.book_dispatch,
    dispatch.TakeBack: dispatch.book_take_back,
    dispatch.Discard: dispatch.book_discard,
    quality.Measure: quality.book_measure,
    quality.Sample: quality.book_sample,
    quality.PutOnHold: quality.book_hold,
    quality.Clear: quality.book_clear,
    quality.Release: quality.book_release,
    corrections.Narrow: corrections.book_narrow,
    corrections.Amend: amending.book_amend,
    corrections.Reverse: corrections.book_reverse,
}


def book(facts: Any, state: State, act: Act, recorded_ms: int, part: int = 0) -> Entry:
    """The entry a verb's facts make on this state. Pure: the state is only read.

    Raises:
        Refusal: the facts cannot be; the sentence says what to do.
        BrokenRule: no such verb, or the booking broke an invariant (a bug).
    """
    verb = VERBS.get(type(facts))
    if verb is None:
        raise BrokenRule(f"no verb books {type(facts).__name__}")
    booking = Booking(state, act, recorded_ms, part)
    verb(facts, booking)
    return booking.entry(facts.kind, facts)
