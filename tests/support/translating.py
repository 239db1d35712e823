"""Bring a catalogue up to date with the program's texts: `python -m tests.support.translating es`.

What is there stays; new texts wait at their place with nothing in them, and texts that the program
no longer says are dropped. Texts stand in the order of the source, each with where it is said.
"""

import json
import sys
from collections.abc import Mapping
from pathlib import Path

from honeyledger.desktop.catalogue import FACTS, Catalogue, read_catalogue
from tests.support.texts import ROOT, Text, texts

FOLDER = ROOT / "resources" / "translations"
_MOST_PLACES = 3


def file_of(language: str) -> Path:
    """Where the catalogue of a language is."""
    return FOLDER / f"{language}.po"


def catalogue_text(language: str, said: Catalogue, found: list[Text]) -> str:
    """A catalogue as it is written: its head, then each text once."""
    places: dict[str, list[str]] = {}
    for one in found:
        where = places.setdefault(one.text, [])
        if one.where not in where:
            where.append(one.where)
    contexts = {(one.context, one.text) for one in found}
    plain = {one.text for one in found if one.context != FACTS}
    head = f"Language: {language}\nContent-Type: text/plain; charset=UTF-8\n"
    parts = [f'msgid ""\nmsgstr {_quoted(head)}\n']
    for text, where in places.items():
        shown = " ".join(where[:_MOST_PLACES])
        if text in plain:
            parts.append(f"#: {shown}\n{_entry(text, said.texts.get(text, ''))}")
        if (FACTS, text) in contexts:
            words = said.placed.get((FACTS, text), said.texts.get(text, ""))
            parts.append(f"#: {shown}\n{_placed(FACTS, text, words)}")
        for (context, placed), words in said.placed.items():
            if placed == text and context != FACTS and (context, text) in contexts:
                parts.append(f"#: {shown}\n{_placed(context, text, words)}")
    return "\n".join(parts)


def _entry(text: str, words: str) -> str:
    return f"msgid {_quoted(text)}\nmsgstr {_quoted(words)}\n"


def _placed(context: str, text: str, words: str) -> str:
    return f"msgctxt {_quoted(context)}\n{_entry(text, words)}"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def with_texts(said: Catalogue, more: Mapping[str, str]) -> Catalogue:
    """The catalogue with more texts in it."""
    return Catalogue({**said.texts, **more}, said.placed)


def main(languages: list[str]) -> None:
    """Write each catalogue anew, and say how far it is."""
    found = texts()
    for language in languages:
        file = file_of(language)
        said = read_catalogue(file) if file.exists() else Catalogue({}, {})
        file.write_text(catalogue_text(language, said, found), "utf-8")
        wanted = {one.text for one in found}
        done = sum(1 for text in wanted if said.texts.get(text) or (FACTS, text) in said.placed)
        sys.stdout.write(f"{file.name}: {done} of {len(wanted)} texts\n")


if __name__ == "__main__":
    main(sys.argv[1:])
