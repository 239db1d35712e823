"""The guide's pages, read from Markdown, and finding words in them.

Of Markdown a page may have headings, paragraphs, lists, cautions (after ">"), **words of the
window**, `keys`, links to other pages, and a picture on a line of its own.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from pathlib import Path

FIRST = "first-day"
ORDER = (
    FIRST,
    *("yards", "dock", "hot_room", "extraction", "drums", "bottling", "dispatch"),
    *("trace", "season", "planning", "setup", "labels", "checks", "recalls", "exposure"),
    *("calculator", "entries", "papers", "keys"),
    *("when-something-goes-wrong", "cautions"),
)
"""The pages as they stand in the list; a station's page is named as the station is."""

SNIPPET = 90
_ITEM = re.compile(r"(?:-|\d+\.) +(.*)")
_PICTURE = re.compile(r"!\[([^\]]*)\]\(([^)]*)\)")
_INLINE = re.compile(r"\*\*|`|\[([^\]]*)\]\([^)]*\)")


class Kind(Enum):
    """What a block of a page is."""

    TITLE = "title"
    HEADING = "heading"
    TEXT = "text"
    ITEM = "item"
    STEP = "step"
    CAUTION = "caution"
    PICTURE = "picture"


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, a heading, an item of a list; its text still has its marks.

    Of a picture the text is what it shows, and `file` where it is, from the guide's folder.
    """

    kind: Kind
    text: str
    file: str = ""

    @property
    def plain(self) -> str:
        """The text without marks."""
        return _INLINE.sub(lambda found: found[1] or "", self.text)


@dataclass(frozen=True, slots=True)
class GuidePage:
    """One page: its name, its blocks; and, of a search, where a word stands in it."""

    key: str
    blocks: tuple[Block, ...]
    snippet: str = ""

    @property
    def title(self) -> str:
        """What it is called."""
        return self.blocks[0].plain

    @property
    def summary(self) -> str:
        """What it is about, or where the word that was looked for stands."""
        return self.snippet or self.blocks[1].plain


def read_pages(folder: Path) -> tuple[GuidePage, ...]:
    """Every page, in its order."""
    return tuple(page_of(key, (folder / f"{key}.md").read_text(encoding="utf-8")) for key in ORDER)


def page_of(key: str, text: str) -> GuidePage:
    """A page of Markdown."""
    blocks: list[Block] = []
    for lines in re.split(r"\n\s*\n", text.strip()):
        blocks += _blocks(lines)
    return GuidePage(key, tuple(blocks))


def _blocks(part: str) -> list[Block]:
    """The blocks between two empty lines."""
    made: list[Block] = []
    for line in part.splitlines():
        item, picture = _ITEM.fullmatch(line), _PICTURE.fullmatch(line)
        if picture is not None:
            made.append(Block(Kind.PICTURE, picture[1], picture[2]))
        elif line.startswith("#"):
            kind = Kind.TITLE if line.startswith("# ") else Kind.HEADING
            made.append(Block(kind, line.lstrip("# ")))
        elif item is not None:
            made.append(Block(Kind.ITEM if line.startswith("-") else Kind.STEP, item[1]))
        elif line.startswith(">"):
            made.append(Block(Kind.CAUTION, line.lstrip("> ")))
        elif made:
            made[-1] = replace(made[-1], text=f"{made[-1].text} {line.strip()}")
        else:
            made.append(Block(Kind.TEXT, line))
    return made


def found_in(pages: Sequence[GuidePage], words: str) -> tuple[GuidePage, ...]:
    """The pages that have every word, those with one in the title first; all where none is typed.

    Each says where its first word stands.
    """
    wanted = words.casefold().split()
    if not wanted:
        return tuple(pages)
    hits = [page for page in pages if all(word in _whole(page) for word in wanted)]
    hits.sort(key=lambda page: not any(word in page.title.casefold() for word in wanted))
    return tuple(replace(page, snippet=_snippet(page, wanted[0])) for page in hits)


def _whole(page: GuidePage) -> str:
    return "\n".join(block.plain for block in page.blocks).casefold()


def _snippet(page: GuidePage, word: str) -> str:
    """The stretch of the page round a word."""
    texts = [block.plain for block in page.blocks if word in block.plain.casefold()]
    text = texts[0]
    at = max(0, text.casefold().index(word) - SNIPPET // 3)
    start = text.rfind(" ", 0, at) + 1 if at else 0
    return f"{'… ' if start else ''}{text[start : start + SNIPPET]}"
