"""Places and readings inside a sentence of a history: where something went, what was read."""

from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.quantities import QUANTITIES
from honeyledger.domain.results import parse_result
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_moisture,
    format_temperature,
    format_weight,
)
from honeyledger.ledger.composite import COMPOSITE
from honeyledger.ledger.places import CUSTOMER, GATE, JARS, PALLET, class_of
from honeyledger.services.stock import PlaceNames


def place_words(names: PlaceNames, where: str) -> str:
    """A place inside a sentence; a drum that is called "Drum 7" is not called "drum Drum 7"."""
    name = names[where]
    if where == JARS:
        return phrase("the {name}", name=name)
    word, _, rest = name.partition(" ")
    return rest if rest.casefold().startswith(word.casefold()) else name


def into_words(names: PlaceNames, place: str) -> str:
    """A place that something was put into, or onto."""
    name = place_words(names, place)
    if class_of(place) == PALLET:
        return phrase("on {place}", place=name)
    return phrase("into {place}", place=name)


def at_words(names: PlaceNames, place: str) -> str:
    """A place where something is: a customer has it, the farm gate sold it."""
    name, kind = place_words(names, place), class_of(place)
    if kind == PALLET:
        return phrase("on {place}", place=name)
    if kind == CUSTOMER:
        return phrase("with {place}", place=name)
    if kind == GATE:
        return phrase("sold at {place}", place=name)
    return phrase("in {place}", place=name)


def result_words(name: str, value: object) -> str:
    """A reading that is no plain figure of the ledger's: as reported, or a composite's."""
    plain = name.removeprefix(COMPOSITE)
    of = QUANTITIES.get(plain)
    if of is None or (plain == name and not isinstance(value, str)):
        return ""
    if isinstance(value, int):
        words = of.said(value)
    elif isinstance(value, str):
        words = of.words(parse_result(value))
    else:
        return ""
    words = joined((of.title, words), " ")
    return phrase("{reading} (a composite)", reading=words) if plain != name else words


def reading_words(name: str, value: int, unit: MassUnit) -> str:
    """What was read of a lot, or its weight; "" for a mark that is no reading."""
    match name:
        case "moisture":
            return phrase("moisture {value}", value=format_moisture(value))
        case "colour":
            return phrase("colour {value}", value=format_colour(value))
        case "temperature":
            return phrase("temperature {value}", value=format_temperature(value))
        case "pending":
            return phrase("weight to follow") if value else ""
        case "weighed_g":
            return phrase("net {mass}", mass=format_weight(value, unit))
    return ""
