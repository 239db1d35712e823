"""The number of a case or pallet (SSCC), scanned: its code is looked up in the lane of questions.

Every other code says by itself what it is; only the ledger knows which pack has a number.
"""

from collections.abc import Callable
from functools import partial

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.domain.gs1 import sscc_in
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.lookup import read_code


def unit_scan(
    desk: Desk, found: Callable[[str], None], refused: Callable[[Refusal], None]
) -> Callable[[str], bool]:
    """What says whether a text is such a number, and tells `found` its pack's code later."""

    def told(outcome: Outcome[str]) -> None:
        if outcome.value:
            found(outcome.value)
        elif outcome.refusal is not None:
            refused(outcome.refusal)

    def is_unit(text: str) -> bool:
        try:
            is_number = bool(sscc_in(text))
        except Refusal:
            return False
        if is_number:
            code = partial(desk.house.ask, lambda view: str(read_code(view, text, "code")))
            desk.jobs.read(code, told)
        return is_number

    return is_unit
