"""The limits of a recall's accounting stand in the house's record."""

from honeyledger.desktop.stations.setup.recall_asks import missing_asks
from honeyledger.desktop.stations.setup.registers import house_kind
from honeyledger.ledger.verbs.registers import SETTINGS
from honeyledger.services.recall_rows import EXPLAIN_FROM, WARN_FROM


def test_the_house_is_asked_for_both_with_the_program_s_own_at_first() -> None:
    asks = missing_asks()
    assert [ask.default for ask in asks] == [str(WARN_FROM // 100), str(EXPLAIN_FROM // 100)]
    assert {ask.key for ask in asks} <= SETTINGS.keys()
    assert {ask.key for ask in asks} <= {ask.key for ask in house_kind().asks}
