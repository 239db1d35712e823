"""What the house's record asks of recalls: how much may be missing before one looks, and explains.

Both have defaults that are common practice, no source.
"""

from honeyledger.desktop.stations.setup.asks import Ask, Typing, tr
from honeyledger.ledger.verbs.recalls import MISSING_EXPLAIN, MISSING_WARN


def missing_asks() -> tuple[Ask, ...]:
    """From how much one looks, and from how much one explains in writing."""
    return (
        Ask(
            MISSING_WARN,
            tr("Missing in a recall: look for it from"),
            Typing.PERCENT,
            default="2",
            unit="%",
            later=True,
            short=tr("missing: look"),
        ),
        Ask(
            MISSING_EXPLAIN,
            tr("Explain it from"),
            Typing.PERCENT,
            default="5",
            unit="%",
            later=True,
            beside=True,
        ),
    )
