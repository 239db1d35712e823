"""What is written down of yards, as small forms: records, supers on, treatments, feed, disease."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.stations.yards.words import counted, tr
from honeyledger.domain.moments import parse_day
from honeyledger.domain.units import parse_coordinate, parse_count, parse_mass_g
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Certify, Disease, FeedYard, SupersOn, Treat
from honeyledger.services.house import Recorded
from honeyledger.services.yards_page import YardRow, YardsPage

RECORD, SUPERS, TREAT, FEED, DISEASE, CERTIFY = (
    *("record", "supers", "treat", "feed", "disease", "certify"),
)
YARDS, BOXES, TREATMENTS = "yards", "boxes", "treatments"
YES, NO = "yes", "no"
TEXTS = ("forage", "place", "region", "country", "owner", "note")
DEGREE = 10_000_000  # the books keep a coordinate in units of 1e-7 degree


def yard_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order of the season."""
    return (_record(), _supers(), _treat(), _feed(), _disease(), _certify())


def _yard(label: str = "") -> Ask:
    return Ask("yard", label or tr("Yard: scan it, or name it"), Typing.FREE, offers=YARDS)


def _yes_or_no(key: str, label: str) -> Ask:
    return Ask(key, label, Typing.BUTTONS, buttons=((YES, tr("yes")), (NO, tr("no"))))


def _day(typed: FormTyped, key: str, reading: Reading, field: str = "") -> str:
    text = typed.text(key)
    return parse_day(text, reading.today, field=field or key).isoformat() if text else ""


def _on(typed: FormTyped) -> bool | None:
    said = typed.text("supers_on")
    return said == YES if said else None


def name_of(text: str, reading: Reading) -> str:
    """A yard's name, whatever it was called by."""
    page: YardsPage | None = reading.page
    row = page.row(text) if page else None
    return row.name if row else text


# The record.


def _record() -> FormSpec:
    return FormSpec(
        RECORD,
        tr("Record"),
        tr("Name a new yard, or scan one to change its record."),
        tr("Keep the record"),
        (
            (_yard(),),
            (
                Ask("name", tr("Its name, where another"), part=3),
                Ask("colonies", tr("Colonies"), Typing.COUNT, part=3),
            ),
            (Ask("forage", tr("Forage")), Ask("place", tr("Place"))),
            (
                Ask("latitude", tr("Latitude"), unit="°"),
                Ask("longitude", tr("Longitude"), unit="°"),
            ),
            (Ask("region", tr("Region")), Ask("country", tr("Country"))),
            (
                _yes_or_no("organic", tr("Certified organic")),
                _yes_or_no("certified", tr("Moves on a certificate")),
            ),
            (Ask("owner", tr("Whose bees, where not ours")), Ask("note", tr("Note"))),
        ),
        _recorded,
        _recorded_words,
        scan="yard",
        fields={"name": "yard"},
    )


def _recorded(typed: FormTyped, reading: Reading) -> Sequence[Register]:
    """The record, whole: facts this form does not ask stay as they are."""
    page: YardsPage = reading.page
    row = page.row(typed.text("yard"))
    record: dict[str, str | int] = {}
    if row is not None:
        asked = (*TEXTS, "colonies", "latitude", "longitude", "organic", "certified")
        record = {
            key: value
            for key, value in row.record.items()
            if isinstance(value, str | int) and key not in asked
        }
    record["name"] = typed.text("name") or (row.name if row else typed.text("yard"))
    if typed.text("colonies"):
        record["colonies"] = parse_count(typed.text("colonies"), field="colonies")
    axes: tuple[Literal["latitude", "longitude"], ...] = ("latitude", "longitude")
    for axis in axes:
        if typed.text(axis):
            record[axis] = parse_coordinate(typed.text(axis), axis)
    for key in ("organic", "certified"):
        if typed.text(key):
            record[key] = int(typed.text(key) == YES)
    record |= {key: typed.text(key) for key in TEXTS if typed.text(key)}
    return [Register("yard", record, row.code if row else "")]


def _recorded_words(typed: FormTyped, done: Recorded, reading: Reading) -> str:
    name = typed.text("name") or name_of(typed.text("yard"), reading)
    if done.given:
        words = tr("{name} is registered as {code}.")
        return words.format(name=name, code=done.given[0])
    return tr("The record of {name} is changed.").format(name=name)


def values_of(row: YardRow) -> dict[str, str]:
    """A yard's record as the form shows it, to be changed."""
    values = {key: row.text(key) for key in ("colonies", *TEXTS)}
    for axis in ("latitude", "longitude"):
        degrees = row.number(axis)
        values[axis] = "" if degrees is None else degrees_words(degrees)
    for key in ("organic", "certified"):
        said = row.number(key)
        values[key] = "" if said is None else (YES if said else NO)
    return {"yard": row.code, "name": row.name} | {
        key: text for key, text in values.items() if text
    }


def degrees_words(value: int) -> str:
    """A coordinate in decimal degrees, as it can be typed again; every digit the books have."""
    sign = "-" if value < 0 else ""
    whole, part = divmod(abs(value), DEGREE)
    return f"{sign}{whole}.{part:07d}".rstrip("0").rstrip(".")


# What is done there.


def _supers() -> FormSpec:
    return FormSpec(
        SUPERS,
        tr("Supers on"),
        tr("Scan the yard; count the supers put on."),
        tr("They are on"),
        (
            (_yard(),),
            (
                Ask("count", tr("Supers"), Typing.COUNT),
                Ask("box", tr("Box"), Typing.CHOICE, offers=BOXES),
            ),
            (Ask("day", tr("Day, blank for today"), Typing.DAY),),
        ),
        lambda typed, reading: [
            SupersOn(
                typed.text("yard"),
                parse_count(typed.text("count"), "a number of supers"),
                _day(typed, "day", reading),
                typed.text("box"),
            )
        ],
        lambda typed, _done, reading: tr("{supers} are on {yard}.").format(
            supers=counted(parse_count(typed.text("count")), tr("1 super"), tr("{n} supers")),
            yard=name_of(typed.text("yard"), reading),
        ),
        scan="yard",
    )


def _treat() -> FormSpec:
    return FormSpec(
        TREAT,
        tr("Treat"),
        tr("Scan the yard; read the days off the label: your local label and code decide."),
        tr("Keep the treatment"),
        (
            (_yard(),),
            (Ask("product", tr("Product")), Ask("active", tr("Active"))),
            (
                Ask("in", tr("In, blank for today"), Typing.DAY),
                Ask("out", tr("Out"), Typing.DAY),
            ),
            (
                Ask("clear", tr("Clear from, by its label")),
                Ask("interval", tr("or its interval, such as 6 weeks")),
            ),
            (_yes_or_no("supers_on", tr("Supers were on")),),
            (
                Ask(
                    "completes",
                    tr("Completes what is in"),
                    Typing.CHOICE,
                    offers=TREATMENTS,
                    shown=_may_complete,
                ),
                Ask("note", tr("Note")),
            ),
        ),
        _treated,
        lambda typed, _done, reading: tr("{yard} was treated with {product}.").format(
            yard=name_of(typed.text("yard"), reading), product=typed.text("product")
        ),
        scan="yard",
        fields={"first_day": "in", "last_day": "out", "clear_day": "clear"},
    )


def _may_complete(typed: FormTyped, reading: Reading) -> bool:
    """Whether a treatment of this yard is on record that nobody took out."""
    page: YardsPage | None = reading.page
    row = page.row(typed.text("yard")) if page else None
    open_ones = page.treatments if page else ()
    return row is not None and any(one.yard == row.code for one in open_ones)


def _treated(typed: FormTyped, reading: Reading) -> Sequence[Treat]:
    completes = typed.text("completes")
    out = _day(typed, "out", reading, "last_day")
    clear = _day(typed, "clear", reading, "clear_day")
    return [
        Treat(
            typed.text("yard"),
            typed.text("product"),
            typed.text("active"),
            _day(typed, "in", reading, "first_day"),
            out,
            clear,
            _on(typed),
            parse_count(completes, "an entry's number", field="completes") if completes else 0,
            typed.text("note"),
            typed.text("interval"),
        )
    ]


def _feed() -> FormSpec:
    return FormSpec(
        FEED,
        tr("Feed"),
        tr("Scan the yard; say what it was fed. Honey can carry foulbrood: only your own."),
        tr("Keep the feed"),
        (
            (_yard(),),
            (Ask("what", tr("Fed")), Ask("net", tr("Net"), Typing.MASS)),
            (Ask("day", tr("Day, blank for today"), Typing.DAY),),
            (_yes_or_no("supers_on", tr("Supers were on")),),
            (Ask("source", tr("If it is honey of this house: scan it")),),
            (
                replace(_yes_or_no("whole", tr("All of it")), shown=_is_own),
                Ask("jars", tr("or jars, pieces"), Typing.COUNT, shown=_is_own),
            ),
            (Ask("despite", tr("If it is on hold: why bees get it"), shown=_is_own),),
        ),
        _fed,
        lambda typed, _done, reading: tr("{yard} was fed {what}.").format(
            yard=name_of(typed.text("yard"), reading),
            what=typed.text("what") or typed.text("source"),
        ),
        scan="yard",
        fields={"net_g": "net", "despite_hold": "despite"},
    )


def _is_own(typed: FormTyped, _reading: Reading) -> bool:
    """Whether honey of the house is given."""
    return bool(typed.text("source"))


def _fed(typed: FormTyped, reading: Reading) -> Sequence[FeedYard]:
    facts = FeedYard(
        typed.text("yard"),
        typed.text("what"),
        _day(typed, "day", reading),
        _net(typed, reading),
        _on(typed),
    )
    if not _is_own(typed, reading):
        return [facts]
    jars = typed.text("jars")
    return [
        replace(
            facts,
            source=typed.text("source"),
            whole=typed.text("whole") == YES,
            jars=parse_count(jars, "a number of jars", field="jars") if jars else None,
            despite_hold=typed.text("despite"),
        )
    ]


def _net(typed: FormTyped, reading: Reading) -> int | None:
    text = typed.text("net")
    return parse_mass_g(text, reading.unit, field="net_g") if text else None


def _disease() -> FormSpec:
    return FormSpec(
        DISEASE,
        tr("Disease"),
        tr("Flag a yard, or lift its flag, by name. Diseases may have to be reported."),
        tr("Keep the flag"),
        (
            (_yard(),),
            (Ask("disease", tr("Disease")),),
            (
                Ask("since", tr("Since, blank for today"), Typing.DAY),
                Ask("until", tr("Lifted on"), Typing.DAY),
            ),
            (Ask("note", tr("Note")),),
        ),
        _flagged,
        lambda typed, _done, reading: (
            tr("The flag of {yard} is lifted.")
            if typed.text("until")
            else tr("{yard} is flagged.")
        ).format(yard=name_of(typed.text("yard"), reading)),
        scan="yard",
    )


def _flagged(typed: FormTyped, reading: Reading) -> Sequence[Disease]:
    since, until = _day(typed, "since", reading), _day(typed, "until", reading)
    words = typed.text("disease"), since, until, typed.text("note")
    return [Disease(typed.text("yard"), *words)]


def _certify() -> FormSpec:
    return FormSpec(
        CERTIFY,
        tr("Papers"),
        tr("Scan the yard; write down the certificate its supers move on."),
        tr("Keep the certificate"),
        (
            (_yard(),),
            (Ask("number", tr("Certificate")), Ask("by", tr("Issued by"))),
            (
                Ask("from", tr("Good from, blank for today"), Typing.DAY),
                Ask("to", tr("Good until")),
            ),
        ),
        lambda typed, reading: [
            Certify(
                typed.text("yard"),
                typed.text("number"),
                typed.text("by"),
                _day(typed, "from", reading, "first_day"),
                _day(typed, "to", reading, "last_day"),
            )
        ],
        lambda typed, _done, reading: tr("Certificate {number} of {yard} is on record.").format(
            number=typed.text("number"), yard=name_of(typed.text("yard"), reading)
        ),
        scan="yard",
        fields={"first_day": "from", "last_day": "to"},
    )
