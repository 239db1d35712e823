"""What was done to a lot as it stood, in words: labelled, warmed, dried, complained of, sent."""

from collections.abc import Mapping, Sequence

from honeyledger.domain.moments import say_day
from honeyledger.domain.phrases import Phrase, joined, phrase
from honeyledger.domain.units import (
    MassUnit,
    format_moisture,
    format_temperature,
    format_weight,
)
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import DRUM
from honeyledger.ledger.title import party_name
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

_VALUE = "{value}"
SENT_WITH = (
    ("carrier", phrase("carried by {value}", value=_VALUE)),
    ("vehicle", phrase("vehicle {value}", value=_VALUE)),
    ("freight_container", phrase("freight container {value}", value=_VALUE)),
    ("seals", phrase("{value}", value=_VALUE)),
    ("contract", phrase("contract {value}", value=_VALUE)),
    ("reference", phrase("their order {value}", value=_VALUE)),
)
HOUR_MIN = 60
_WHY_ASIDE = {"brood": phrase("with brood"), "set": phrase("set in the comb")}
_WHERE_TO = {"stays": phrase("carried over"), "bees": phrase("given to bees")}

# How an entry is called when it is told; the others are called by their own verb.
CALLED = {
    "receive": phrase("Received"),
    "split": phrase("Split"),
    "join": phrase("Joined"),
    "count": phrase("Counted again"),
    "load": phrase("Loaded"),
    "fill": phrase("Filled"),
    "bung": phrase("Closed"),
    "reweigh": phrase("Weighed again"),
    "skim": phrase("Skimmed"),
    "dry": phrase("Dried"),
    "melt": phrase("Melted"),
    "chunk": phrase("Chunk honey"),
    "blend": phrase("Blended"),
    "warm": phrase("Warmed"),
    "supply": phrase("Taken in"),
    "purchase": phrase("Bought in"),
    "cappings": phrase("Cappings weighed"),
    "wash": phrase("Washed"),
    "stop": phrase("Line stopped"),
    "close run": phrase("Run closed"),
    "change-over": phrase("Change-over"),
    "bottle": phrase("Bottled"),
    "dispatch": phrase("Dispatched"),
    "take back": phrase("Taken back"),
    "pack": phrase("Packed"),
    "feed": phrase("Fed"),
    "unpack": phrase("Unpacked"),
    "calibrate": phrase("Calibrated"),
    "label": phrase("Labelled"),
    "judge claims": phrase("Claims judged again"),
    "settle": phrase("Settled"),
    "approve": phrase("Judged"),
    "buyer's weight": phrase("Weighed by the buyer"),
    "transfer title": phrase("Title transferred"),
    "send back": phrase("Sent back"),
    "found drum": phrase("Found"),
    "move": phrase("Moved"),
    "stocktake": phrase("Stocktake"),
    "sample": phrase("Sampled"),
    "discard": phrase("Discarded"),
    "measure": phrase("Measured"),
    "narrow": phrase("Reach narrowed"),
    "amend": phrase("Amended"),
    "reverse": phrase("Reversed"),
    "wet out": phrase("Wet out"),
    "room log": phrase("Room log"),
    "cut": phrase("Cut"),
    "pool": phrase("Pool"),
    "opening stock": phrase("Opening stock"),
    "complaint": phrase("Complaint"),
    "empties": phrase("Empties"),
    "supers on": phrase("Supers on"),
    "treat": phrase("Treat"),
    "disease": phrase("Disease"),
    "certify": phrase("Certify"),
    "weather": phrase("Weather noted"),
    "printed": phrase("Printed"),
    "check": phrase("Check"),
}


_N = "{n}"
_COUNTED = {
    "supers": (phrase("1 super"), phrase("{n} supers", n=_N)),
    "frames": (phrase("1 frame"), phrase("{n} frames", n=_N)),
    "jars": (phrase("1 jar"), phrase("{n} jars", n=_N)),
    "pieces": (phrase("1 piece"), phrase("{n} pieces", n=_N)),
    "labels": (phrase("1 label"), phrase("{n} labels", n=_N)),
}
"""What is counted, for one and for many."""


def count_of(count: int, noun: str) -> str:
    """So many of something that is named in the plural: "1 jar", "12 jars"."""
    if noun in _COUNTED:
        one, many = _COUNTED[noun]
        return one if count == 1 else Phrase(many.template, {"n": count})
    return f"{count} {noun[:-1] if count == 1 and noun.endswith('s') else noun}"


def listed(words: Sequence[str]) -> str:
    """Words as a list is said: "a, b and c"."""
    if len(words) < 2:
        return words[0] if words else ""
    return phrase("{most} and {last}", most=joined(words[:-1]), last=words[-1])


def deed_words(
    view: View, name: str, value: Mapping[str, Json], names: PlaceNames, unit: MassUnit
) -> str:
    """A mark of work as a part of a sentence; "" where it says nothing of its own."""
    match name.partition("/")[0]:
        case "dried":
            room = value.get("room")
            return _dried(value, names.of_record(f"room/{room}") if room else "")
        case "set aside":
            return _set_aside(value)
        case "heated":
            # By the heat log it says so itself.
            degrees = value.get("temperature")
            if value.get("minutes"):
                return ""
            if not isinstance(degrees, int):
                return phrase("heated")
            return phrase("heated to {degrees}", degrees=format_temperature(degrees))
        case "heat":
            why = str(value.get("why", ""))
            return f"{_lasted(value['minutes'])}, up{_to(value)}{f' ({why})' if why else ''}"
        case "labelled":
            return _labelled(value, names.of_record(f"product/{value['product']}"))
        case "owner":
            document = str(value.get("document", ""))
            owner = party_name(view, str(value["owner"]))
            belongs = phrase("belongs to {owner}", owner=owner)
            return joined((belongs, f"({document})"), " ") if document else belongs
        case "blended":
            planned = value.get("planned_g")
            if not isinstance(planned, int):
                return ""
            return phrase("{mass} planned", mass=format_weight(planned, unit))
    return ""


def check_words(name: str, value: Mapping[str, Json]) -> str:
    """What was checked, against what, and what came out; a check of no equipment has one name."""
    what, shown, note = (str(value.get(key, "")) for key in ("what", "value", "note"))
    about = [name] if name and name.casefold() != what.casefold() else []
    result = phrase("right") if value.get("result") == "ok" else phrase("off")
    found = joined((result, shown)) if shown else result
    words = joined((joined((*about, what)), found), ": ")
    return joined((words, f"({note})"), " ") if note else words


def complaint_words(value: Mapping[str, Json], entry_day: str) -> str:
    """What was said of it, by whom, about which jar, and on which day where that was another."""
    who, jar, day = (str(value.get(key, "")) for key in ("who", "jar", "day"))
    parts = [
        str(value["what"]),
        *([phrase("said by {who}", who=who)] if who else []),
        *([phrase("about {jar}", jar=jar)] if jar else []),
        *([phrase("on {day}", day=say_day(day))] if day and day != entry_day else []),
    ]
    answer = str(value.get("answer", ""))
    if not answer:
        return joined(parts)
    return joined((joined(parts), phrase("answered: {answer}", answer=answer)), "; ")


def sent_words(note: str, said: Mapping[str, Json]) -> str:
    """The dispatch note something went on, with all that was written on it."""
    parts = [phrase("on dispatch note {note}", note=note)]
    for name, words in SENT_WITH:
        value = said.get(name, "")
        if isinstance(value, Sequence) and not isinstance(value, str) and value:
            numbers = [str(one) for one in value]
            value = (
                phrase("seals {numbers}", numbers=listed(numbers))
                if len(numbers) > 1
                else phrase("seal {number}", number=numbers[0])
            )
        if value:
            parts.append(Phrase(words.template, {"value": value}))
    return joined(parts)


def _labelled(value: Mapping[str, Json], product: str) -> str:
    """How many jars under which product, the numbers on the roll, and the seals."""
    jars, torn = value["jars"], value.get("torn", 0)
    assert isinstance(jars, int)
    assert isinstance(torn, int)
    named = phrase("{jars} as {product}", jars=count_of(jars, "jars"), product=product)
    parts: list[str] = [named, _range(phrase("roll"), value.get("roll", ""))]
    parts += [phrase("{labels} torn", labels=count_of(torn, "labels"))] if torn else []
    parts += [_range(phrase("lid seals"), value.get("seals", ""))]
    return joined([part for part in parts if part])


def _range(what: str, numbers: Json = "") -> str:
    if not isinstance(numbers, Sequence) or isinstance(numbers, str) or not numbers:
        return ""
    first, last = str(numbers[0]), str(numbers[-1])
    if last and last != first:
        return phrase("{what} {first} to {last}", what=what, first=first, last=last)
    return joined((what, first), " ")


def _lasted(minutes: Json) -> str:
    assert isinstance(minutes, int)
    hours, rest = divmod(minutes, HOUR_MIN)
    return f"{hours} h" if hours and not rest else f"{minutes} min"


def _to(value: Mapping[str, Json]) -> str:
    degrees = value.get("temperature")
    return f" to {format_temperature(degrees)}" if isinstance(degrees, int) else ""


def _dried(value: Mapping[str, Json], room: str) -> str:
    """The moisture before, how long it stood and where."""
    before, hours = value["before"], value.get("hours")
    assert isinstance(before, int)
    stood = [f"{hours} h"] if hours else []
    stood += [phrase("in {room}", room=room)] if room else []
    told = phrase("moisture {moisture} before", moisture=format_moisture(before))
    return joined((told, joined(stood, " ")), "; ") if stood else told


def _set_aside(value: Mapping[str, Json]) -> str:
    """Supers or frames, why, and what was said besides."""
    counts = [
        count_of(int(str(value[one])), one) for one in ("supers", "frames") if value.get(one)
    ]
    why = str(value["why"])
    end = _WHERE_TO.get(str(value["to"]), phrase("scrapped"))
    note = str(value.get("note", ""))
    return joined([*counts, _WHY_ASIDE.get(why, why), end, *([note] if note else [])])


def fact_words(names: PlaceNames, name: str, value: Json) -> str:
    """What a drum or jar lot is now by an amendment: its container, its day, its product."""
    match name:
        case "container":
            return phrase("its container is {name}", name=names.of_record(f"{DRUM}/{value}"))
        case "filled_on":
            return phrase("it was filled on {day}", day=say_day(str(value)))
        case "product":
            return phrase("its product is {name}", name=names.of_record(f"product/{value}"))
    return ""
