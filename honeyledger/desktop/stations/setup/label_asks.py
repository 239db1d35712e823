"""What the set-up asks of labels: what a product's says, and the house's own wording by market."""

from honeyledger.desktop.stations.setup.asks import Ask, SetupKind, Typing, tr
from honeyledger.domain.label_content import ITEMS


def worded() -> tuple[Ask, ...]:
    """What the label of a product says besides, and the size of the jar's main panel."""
    mm = tr("mm")
    return (
        Ask("grade", tr("Grade its label says"), later=True),
        Ask("colour_class", tr("Colour class its label says"), later=True, beside=True),
        Ask("style", tr("Style its label says (creamed …)"), later=True),
        Ask("storage", tr("How to store it, on its label"), later=True),
        Ask("party", tr("Who answers for it, if not the house"), later=True),
        Ask("party_address", tr("Their whole address"), later=True),
        Ask("panel_width_um", tr("Jar's main panel, width"), Typing.MEASURE, unit=mm, later=True),
        Ask(
            "panel_height_um",
            tr("Main panel, height"),
            Typing.MEASURE,
            unit=mm,
            later=True,
            beside=True,
        ),
    )


def wordings() -> SetupKind:
    """What the house wants on labels itself; it stands over what is shipped."""
    return SetupKind(
        "wording",
        "wording",
        tr("Wording of labels"),
        tr("What jars' labels say by market, besides or otherwise than what comes with it."),
        (
            Ask("name", tr("Name of the wording")),
            Ask("market", tr("For which market"), offers=("EU", "UK", "US", "Canada", "own")),
            Ask("item", tr("What has to be there, or nothing"), offers=tuple(ITEMS)),
            Ask("text", tr("Words printed besides")),
            Ask("source", tr("Where it is written"), short=tr("source")),
            Ask("as_of", tr("Edition or date"), later=True),
            Ask("left_out", tr("This market does not want it"), Typing.YES, later=True),
            Ask("note", tr("Note"), later=True),
        ),
    )
