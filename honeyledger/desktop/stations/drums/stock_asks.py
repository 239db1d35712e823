"""What comes up less often in the drum room, as small forms: a row walked, a drum found, warmed.

A drum of before the house began, and bought-in drums that go back, are written down here, too.
"""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import (
    AT,
    Ask,
    FormSpec,
    FormTyped,
    LineTyped,
    Reading,
    Typing,
)
from honeyledger.desktop.models.reading_asks import (
    CALIBRATE,
    MEASURE,
    READ,
    calibration_form,
    reading_form,
)
from honeyledger.desktop.models.room_asks import room_ask, room_first, stranger_ask
from honeyledger.desktop.stations.drums.words import counted, tr
from honeyledger.domain.moments import parse_day
from honeyledger.domain.units import (
    format_number,
    format_temperature,
    parse_colour,
    parse_count,
    parse_mass_g,
    parse_moisture,
    parse_temperature,
)
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part, part_said
from honeyledger.ledger.verbs.bought_in import SendBack
from honeyledger.ledger.verbs.opening import FoundDrum, OpeningStock
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Stocktake
from honeyledger.ledger.verbs.warming import Warm
from honeyledger.services.house import Recorded
from honeyledger.services.rooms import walk_of

WALK, FOUND, WARM, OPENING, BACK = "walk", "found", "warm", "opening", "back"
DRUMS, YARDS = "drums", "yards"
TAKEN = {
    WALK: "DPEGCL",
    FOUND: "E",
    WARM: "DPJT",
    MEASURE: READ,
    CALIBRATE: "E",
    OPENING: "Y",
    BACK: "P",
}
"""By form, the letters of the codes its scanned answer takes."""


def stock_forms() -> tuple[FormSpec, ...]:
    """The forms, those that come up most often first."""
    measured = reading_form(tr("Drum, sample or tank: scan it"), DRUMS)
    return (_walk(), _found(), _warm(), measured, calibration_form(), _opening(), _back())


def _weights() -> tuple[Ask, ...]:
    return (
        Ask("gross", tr("Gross"), Typing.MASS),
        Ask("tare", tr("Tare, if known"), Typing.MASS),
        Ask("net", tr("or net"), Typing.MASS),
    )


_WEIGHT_FIELDS = {"gross_g": "gross", "tare_g": "tare", "net_g": "net"}


def _weight(typed: FormTyped, reading: Reading) -> Weight:
    def grams(key: str) -> int | None:
        text = typed.text(key)
        return parse_mass_g(text, reading.unit, field=f"{key}_g") if text else None

    return Weight(grams("net"), grams("gross"), grams("tare"))


def _day(typed: FormTyped, reading: Reading) -> str:
    text = typed.text("filled_on")
    return parse_day(text, reading.today, field="filled_on").isoformat() if text else ""


# A row is walked.


def _walk() -> FormSpec:
    return FormSpec(
        WALK,
        tr("Walk a row"),
        tr("Name the room and the row, then scan everything that stands there."),
        tr("The row is walked"),
        (
            (room_ask(part=3), Ask("row", tr("Row, blank for all"), part=2)),
            (stranger_ask(),),
            (Ask("scanned", tr("Stands there: scan each"), many=True),),
            (Ask("unlabelled", tr("Drums without a label: net of each")),),
        ),
        _walked,
        _walked_words,
        scan="scanned",
        fields={"found": "unlabelled", "codes": "scanned"},
    )


def _walked(typed: FormTyped, reading: Reading) -> Sequence[Register | Stocktake]:
    nets = [text.strip() for text in typed.text("unlabelled").split(";")]
    found = tuple(
        FoundDrum(Weight(net_g=parse_mass_g(net, reading.unit, field="found")))
        for net in nets
        if net
    )
    walk = Stocktake(typed.text("room"), typed.text("row"), typed.codes("scanned"), found)
    return [*room_first(typed, reading), walk]


def _walked_words(typed: FormTyped, done: Recorded, _reading: Reading) -> str:
    """How it came out; what is missing and what stood elsewhere by its code."""
    walked = walk_of(done.entries[-1])
    there = len(walked["there"])
    words = [tr("{n} where they should be").format(n=format_number(there))]
    sorts = {
        "missing": tr("missing: {codes}"),
        "misplaced": tr("stood elsewhere by the books: {codes}"),
        "gone": tr("not in the house by the books: {codes}"),
        "new": tr("not placed before: {codes}"),
        "found": tr("found without a label: {codes}"),
    }
    words += [
        text.format(codes=", ".join(walked[sort])) for sort, text in sorts.items() if walked[sort]
    ]
    spot = ", ".join(part for part in (typed.text("room"), typed.text("row")) if part)
    return f"{spot}: {'; '.join(words)}."


# A full drum nobody knows.


def _found() -> FormSpec:
    return FormSpec(
        FOUND,
        tr("Found drum"),
        tr("A full drum without a label: it gets a code, and is on hold until somebody knows it."),
        tr("It was found"),
        (
            _weights(),
            (
                Ask("container", tr("The house's container")),
                Ask("filled_on", tr("Filled on, if known"), Typing.DAY),
            ),
            (Ask("written", tr("What stands on it")),),
            (room_ask(part=3), Ask("row", tr("Row"), part=2)),
            (stranger_ask(),),
        ),
        _found_facts,
        lambda _typed, done, _reading: tr("{code} stands for the drum, on hold.").format(
            code=_drum_of(done)
        ),
        scan="container",
        fields=_WEIGHT_FIELDS,
    )


def _found_facts(typed: FormTyped, reading: Reading) -> Sequence[Register | FoundDrum]:
    drum = FoundDrum(
        _weight(typed, reading),
        typed.text("container"),
        typed.text("written"),
        _day(typed, reading),
        typed.text("room"),
        typed.text("row"),
    )
    return [*room_first(typed, reading), drum]


def _drum_of(done: Recorded) -> str:
    return next((code for code in done.codes if code.startswith("D")), done.codes[-1])


# Heat.


def _warm() -> FormSpec:
    return FormSpec(
        WARM,
        tr("Warm"),
        tr("Hot honey scalds: gloves. Above 40 °C it counts as heated in all it goes into."),
        tr("It was warm"),
        (
            (Ask("what", tr("Drum or jars: scan it"), Typing.FREE, offers=DRUMS),),
            (
                Ask("temperature", tr("Hottest"), unit="°C"),
                Ask("hours", tr("Hours"), Typing.COUNT),
                Ask("minutes", tr("Minutes"), Typing.COUNT),
            ),
            (Ask("why", tr("What for")),),
        ),
        _warmed,
        lambda typed, _done, _reading: tr("{code} was at {temperature}.").format(
            code=typed.text("what"),
            temperature=format_temperature(parse_temperature(typed.text("temperature"))),
        ),
        scan="what",
    )


def _warmed(typed: FormTyped, _reading: Reading) -> Sequence[Warm]:
    temperature = parse_temperature(typed.text("temperature"))
    long = parse_count(typed.text("hours") or "0", "a number of hours", field="hours") * 60
    long += parse_count(typed.text("minutes") or "0", "a number of minutes", field="minutes")
    return [Warm(typed.text("what"), temperature, long, typed.text("why"))]


# Of before the house began.


def _opening() -> FormSpec:
    return FormSpec(
        OPENING,
        tr("From before"),
        tr("A drum that was full before this house began here: its crop, and where it is from."),
        tr("It is on hand"),
        (
            (
                Ask("season", tr("Crop year"), part=2),
                Ask("container", tr("The house's container"), part=3),
            ),
            _weights(),
            (
                Ask("moisture", tr("Moisture, if read"), unit="%"),
                Ask("colour", tr("Colour"), unit="mm"),
            ),
            (
                Ask("written", tr("What stands on it")),
                Ask("filled_on", tr("Filled on, if known"), Typing.DAY),
            ),
            (Ask("yard", tr("From a yard: scan it, none if unknown"), Typing.FREE, offers=YARDS),),
        ),
        _opened,
        lambda _typed, done, _reading: tr("{code} is on hand.").format(code=_drum_of(done)),
        scan="yard",
        line=(Ask("share", tr("its share, blank if unknown"), unit="%"),),
        fields=_WEIGHT_FIELDS | {"yards": "yard"},
    )


def _opened(typed: FormTyped, reading: Reading) -> Sequence[OpeningStock]:
    moisture, colour = typed.text("moisture"), typed.text("colour")
    return [
        OpeningStock(
            _weight(typed, reading),
            parse_count(typed.text("season"), "a year", field="season"),
            tuple(_share(line) for line in typed.lines),
            typed.text("container"),
            typed.text("written"),
            _day(typed, reading),
            parse_moisture(moisture, field="moisture") if moisture else None,
            parse_colour(colour, field="colour") if colour else None,
        )
    ]


def _share(line: LineTyped) -> Part:
    return part_said(line.code, line.text("share"), f"share{AT}{line.code}")


# Bought in, and not kept.


def _back() -> FormSpec:
    return FormSpec(
        BACK,
        tr("Send back"),
        tr("Bought-in drums that go back to their supplier: scan each. They stay on record."),
        tr("They went back"),
        (
            (Ask("lots", tr("Drums: scan each"), many=True),),
            (Ask("reason", tr("Reason")),),
            (Ask("carrier", tr("Carrier")), Ask("reference", tr("Their number"))),
        ),
        lambda typed, _reading: [
            SendBack(
                typed.codes("lots"),
                typed.text("reason"),
                typed.text("carrier"),
                typed.text("reference"),
            )
        ],
        lambda typed, _done, _reading: counted(
            len(typed.codes("lots")), tr("One drum went back."), tr("{n} drums went back.")
        ),
        scan="lots",
    )
