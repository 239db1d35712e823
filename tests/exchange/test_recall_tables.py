"""A recall's tables read back: whole figures, one row a lot or a customer, no formulas."""

import csv
import io
from typing import Any

from honeyledger.exchange.recall_tables import consignee_table, scope_table
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.recalls import AnswerRecall, OpenRecall, TellConsignees
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.recalls import recall_case
from tests.support.houses import BuiltHouse


def read(data: bytes) -> list[dict[str, Any]]:
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_both_tables() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.do(Register("customer", {"name": "=Packer", "place": "Ostwick", "phone": "+49 30 1"}))
    house.load("Creek", 200_000, "Tank 1")
    sent = house.drum("Tank 1", 100_000)
    house.do(Dispatch("=Packer", (DispatchLine(sent),)))
    done = house.do(OpenRecall("smoke", yard="Creek"))
    code = next(one for one in done.given if one[0] == "Q")
    house.do(TellConsignees(code, ("=Packer",), "letter"))
    house.do(AnswerRecall(code, "=Packer", here_g=0))
    case = house.house.ask(lambda view: recall_case(view, house.now_ms, code))
    lots = read(scope_table(case))
    assert {row["Lot"] for row in lots} == {lot.code for lot in case.lots}
    drum = next(row for row in lots if row["Lot"] == sent)
    assert (drum["Made g"], drum["Sent g"], drum["Here g"]) == ("100000", "100000", "0")
    assert drum["In it by"].count(" > ") == 1
    (packer,) = read(consignee_table(case))
    assert (packer["Who"], packer["Phone"]) == ("'=Packer", "'+49 30 1")
    assert (packer["Has g"], packer["On hand g"], packer["On hand jars"]) == ("100000", "0", "")
    assert packer["How"] == "letter"
    assert packer["Told first"].startswith("20")
