"""What the parts of a plan are called, and what more of them is: words for every face."""

from collections.abc import Mapping

from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.services.season_forecast import EXTRACTOR, FRAMES, HANDS, SUPPLY, TANK
from honeyledger.services.season_needs import (
    CREW,
    DRUMS,
    EXTRACTORS,
    HOT_ROOM,
    PULLING,
    TANKS,
    UNCAPPING,
)

PART_WORDS: Mapping[str, Phrase] = {
    PULLING: phrase("Pulling supers"),
    HOT_ROOM: phrase("Hot room"),
    UNCAPPING: phrase("Uncapping"),
    EXTRACTORS: phrase("Extractors"),
    CREW: phrase("People"),
    TANKS: phrase("Settling tanks"),
    DRUMS: phrase("Filling drums"),
}
CHANGE_WORDS: Mapping[str, Phrase] = {
    "extractor": phrase("One more extractor"),
    "uncapper": phrase("One more place to uncap"),
    "person": phrase("One more person"),
    "shift": phrase("One more shift"),
    "tank": phrase("One more settling tank"),
    "places": phrase("4 more places in the hot room"),
    "truck": phrase("32 more supers a day pulled"),
}
WAIT_WORDS: Mapping[str, Phrase] = {
    SUPPLY: phrase("Uncapping waits for warm supers"),
    HANDS: phrase("Machines wait for people"),
    EXTRACTOR: phrase("Uncapping waits for the extractors"),
    FRAMES: phrase("Extractors wait for uncapped frames"),
    TANK: phrase("Extractors wait for room in a tank"),
}
CAUTION = phrase(
    "A plan is no promise. Weather, breakdowns and people are only guessed at; heavy lifting, hot "
    "rooms and long shifts have limits by your local code."
)
