"""What a row of the sample season's laboratory book says: results that came, and calibrations."""

from collections.abc import Mapping, Sequence

from honeyledger.domain.quantities import REPORTED
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_moisture
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_steps import NO_SUCH_STEP, Make, Names, Step
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Reported

COLUMNS = (
    *("what", "lot", "moisture", "instrument", "known", "read", "against", "laboratory"),
    *("report", "sampled"),
    *REPORTED,
)


def in_laboratory(rows: Sequence[Row], names: Names) -> Step:
    """Results of a lot or of a sample, or an instrument read against something known."""
    row = rows[0]
    match row.text("what"):
        case "result":
            results = tuple(
                Reported(name, text)
                for name in REPORTED
                if (text := row.text(name.replace(" ", "_")))
            )
            papers = row.text("laboratory"), row.text("report"), row.text("sampled")
            lot, moisture = names.code(row.text("lot")), row["moisture"]
            return Step(Measure(lot, moisture, None, None, "", None, results, *papers))
        case "calibrated":
            known, read = (parse_moisture(row.text(name)) for name in ("known", "read"))
            against = row.text("against")
            return Step(Calibrate(row.text("instrument"), known, read, against=against))
    raise Refusal(NO_SUCH_STEP, what=row.text("what"))


LABORATORY: Mapping[str, Make] = {"laboratory": in_laboratory}
