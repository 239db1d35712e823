"""What was done to a lot as it stood, in words: labelled, warmed, dried, complained of, sent."""

from collections.abc import Mapping, Sequence

from honeyledger.domain.moments import say_day
from honeyledger.domain.units import (
    MassUnit,
    format_moisture,
    format_temperature,
    format_weight,
)
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import DRUM, JARS
from honeyledger.ledger.title import party_name
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

SENT_WITH = (
    ("carrier", "carried by {}"),
    ("vehicle", "vehicle {}"),
    ("freight_container", "freight container {}"),
    ("seals", "{}"),
    ("contract", "contract {}"),
    ("reference", "their order {}"),
)
HOUR_MIN = 60

# How an entry is called when it is told; the others are called by their own verb.
CALLED = {
    "receive": "Received",
    "split": "Split",
    "join": "Joined",
    "count": "Counted again",
    "load": "Loaded",
    "fill": "Filled",
    "bung": "Closed",
    "reweigh": "Weighed again",
    "skim": "Skimmed",
    "dry": "Dried",
    "melt": "Melted",
    "chunk": "Chunk honey",
    "blend": "Blended",
    "warm": "Warmed",
    "supply": "Taken in",
    "purchase": "Bought in",
    "cappings": "Cappings weighed",
    "wash": "Washed",
    "close run": "Run closed",
    "change-over": "Change-over",
    "bottle": "Bottled",
    "dispatch": "Dispatched",
    "take back": "Taken back",
    "pack": "Packed",
    "feed": "Fed",
    "unpack": "Unpacked",
    "label": "Labelled",
    "settle": "Settled",
    "approve": "Judged",
    "buyer's weight": "Weighed by the buyer",
    "transfer title": "Title transferred",
    "send back": "Sent back",
    "found drum": "Found",
    "move": "Moved",
    "stocktake": "Stocktake",
    "sample": "Sampled",
    "discard": "Discarded",
    "measure": "Measured",
    "narrow": "Reach narrowed",
    "amend": "Amended",
    "reverse": "Reversed",
}


def count_of(count: int, noun: str) -> str:
    """So many of something that is named in the plural: "1 jar", "12 jars"."""
    return f"{count} {noun[:-1] if count == 1 and noun.endswith('s') else noun}"


def listed(words: Sequence[str]) -> str:
    """Words as a list is said: "a, b and c"."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


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
            return "" if value.get("minutes") else f"heated{_to(value)}"
        case "heat":
            why = str(value.get("why", ""))
            return f"{_lasted(value['minutes'])}, up{_to(value)}{f' ({why})' if why else ''}"
        case "labelled":
            return _labelled(value, names.of_record(f"product/{value['product']}"))
        case "owner":
            document = str(value.get("document", ""))
            owner = party_name(view, str(value["owner"]))
            return f"belongs to {owner}{f' ({document})' if document else ''}"
        case "blended":
            planned = value.get("planned_g")
            return f"{format_weight(planned, unit)} planned" if isinstance(planned, int) else ""
    return ""


def complaint_words(value: Mapping[str, Json], entry_day: str) -> str:
    """What was said of it, by whom, about which jar, and on which day where that was another."""
    who, jar, day = (str(value.get(key, "")) for key in ("who", "jar", "day"))
    parts = [
        str(value["what"]),
        *([f"said by {who}"] if who else []),
        *([f"about {jar}"] if jar else []),
        *([f"on {say_day(day)}"] if day and day != entry_day else []),
    ]
    answer = str(value.get("answer", ""))
    return ", ".join(parts) + (f"; answered: {answer}" if answer else "")


def sent_words(note: str, said: Mapping[str, Json]) -> str:
    """The dispatch note something went on, with all that was written on it."""
    parts = [f"on dispatch note {note}"]
    for name, words in SENT_WITH:
        value = said.get(name, "")
        if isinstance(value, Sequence) and not isinstance(value, str) and value:
            numbers = [str(one) for one in value]
            value = f"{'seals' if len(numbers) > 1 else 'seal'} {listed(numbers)}"
        if value:
            parts.append(words.format(value))
    return ", ".join(parts)


def _labelled(value: Mapping[str, Json], product: str) -> str:
    """How many jars under which product, the numbers on the roll, and the seals."""
    jars, torn = value["jars"], value.get("torn", 0)
    assert isinstance(jars, int)
    assert isinstance(torn, int)
    parts = [f"{count_of(jars, 'jars')} as {product}", _range("roll", value.get("roll", ""))]
    parts += [f"{count_of(torn, 'labels')} torn" if torn else ""]
    parts += [_range("lid seals", value.get("seals", ""))]
    return ", ".join(part for part in parts if part)


def _range(what: str, numbers: Json = "") -> str:
    if not isinstance(numbers, Sequence) or isinstance(numbers, str) or not numbers:
        return ""
    first, last = str(numbers[0]), str(numbers[-1])
    return f"{what} {first} to {last}" if last and last != first else f"{what} {first}"


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
    stood = " ".join([*([f"{hours} h"] if hours else []), *([f"in {room}"] if room else [])])
    return f"moisture {format_moisture(before)} before{f'; {stood}' if stood else ''}"


def _set_aside(value: Mapping[str, Json]) -> str:
    """Supers or frames, why, and what was said besides."""
    counts = [
        f"{value[one]} {one if value[one] != 1 else one[:-1]}"
        for one in ("supers", "frames")
        if value.get(one)
    ]
    why = {"brood": "with brood", "set": "set in the comb"}.get(str(value["why"]), value["why"])
    end = {"stays": "carried over", "bees": "given to bees"}.get(str(value["to"]), "scrapped")
    note = str(value.get("note", ""))
    return ", ".join([*counts, str(why), end, *([note] if note else [])])


def place_words(names: PlaceNames, where: str) -> str:
    """A place inside a sentence; a drum that is called "Drum 7" is not called "drum Drum 7"."""
    name = names[where]
    if where == JARS:
        return f"the {name}"
    word, _, rest = name.partition(" ")
    return rest if rest.casefold().startswith(word.casefold()) else name


def fact_words(names: PlaceNames, name: str, value: Json) -> str:
    """What a drum or jar lot is now by an amendment: its container, its day, its product."""
    match name:
        case "container":
            return f"its container is {names.of_record(f'{DRUM}/{value}')}"
        case "filled_on":
            return f"it was filled on {say_day(str(value))}"
        case "product":
            return f"its product is {names.of_record(f'product/{value}')}"
    return ""
