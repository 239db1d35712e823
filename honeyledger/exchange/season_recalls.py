"""What a row of the sample season's recalls says: a case opened, customers told, its end."""

from collections.abc import Mapping, Sequence

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_steps import NO_SUCH_STEP, Make, Names, Step, several
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)

COLUMNS = (
    *("what", "case", "matter", "lots", "sort", "found out", "risk", "customer", "how", "whom"),
    *("net", "destroyed", "proof", "result", "disposal", "note"),
)


def in_recalls(rows: Sequence[Row], names: Names) -> Step:
    """A recall or a drill, step by step."""
    row = rows[0]
    name = row.text("case")
    if row.text("what") == "opened":
        lots = several(row.text("lots"), names)
        told = {key: row.text(key) for key in ("risk", "sort")}
        opened = OpenRecall(row.text("matter"), lots, found=row.text("found_out"), **told)
        return Step(opened, gives=((name, "Q"),))
    case, customer, note = names.code(name), row.text("customer"), row.text("note")
    match row.text("what"):
        case "told":
            how, whom = row.text("how"), row.text("whom")
            return Step(TellConsignees(case, (customer,), how, whom, note))
        case "answered":
            facts = AnswerRecall(
                case,
                customer,
                row["net_g"],
                destroyed_g=row["destroyed_g"] or 0,
                proof=row.text("proof"),
                note=note,
            )
            return Step(facts)
        case "closed":
            return Step(CloseRecall(case, row.text("result"), row.text("disposal")))
    raise Refusal(NO_SUCH_STEP, what=row.text("what"))


RECALLS: Mapping[str, Make] = {"recalls": in_recalls}
