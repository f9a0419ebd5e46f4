"""Text as the server stores it: markup parsed, ends trimmed, length held, plain links found."""

from __future__ import annotations

import re

from .errors import CAPTION_TOO_LONG, TEXT_TOO_LONG, NotImitated, bad
from .markup import parse_html, utf16
from .params import Json, Params

MAX_TEXT = 4096
"""Characters of a message text after parsing (core.telegram.org/bots/api#sendmessage)."""

MAX_CAPTION = 1024
"""Characters of a caption after parsing (core.telegram.org/bots/api#sendphoto)."""

_FOUND = {
    "url": re.compile(r"https?://[^\s<>]+"),
    "bot_command": re.compile(r"(?<![\w/])/[A-Za-z0-9_]{1,64}(?:@[A-Za-z0-9_]{3,32})?(?!\w)"),
    "mention": re.compile(r"(?<![\w@/])@[A-Za-z][A-Za-z0-9_]{3,31}(?!\w)"),
}
_KNOWN = frozenset(
    {"mention", "hashtag", "cashtag", "bot_command", "url", "email", "phone_number", "bold", "italic",
     "underline", "strikethrough", "spoiler", "blockquote", "expandable_blockquote", "code", "pre",
     "text_link", "text_mention", "custom_emoji"}
)  # fmt: skip


def found_entities(text: str, taken: list[Json]) -> list[Json]:
    """`taken` and the commands, mentions and links that the server finds by itself outside them."""
    entities = list(taken)
    covered = [e for e in taken if e["type"] in {"code", "pre", "text_link", "text_mention"}]
    for kind, pattern in _FOUND.items():
        for match in pattern.finditer(text):
            start, length = utf16(text[: match.start()]), utf16(match.group())
            if not any(start < e["offset"] + e["length"] and e["offset"] < start + length for e in covered):
                entities.append({"type": kind, "offset": start, "length": length})
    return sorted(entities, key=lambda e: (e["offset"], -e["length"]))


def _trimmed(text: str, entities: list[Json]) -> tuple[str, list[Json]]:
    cut = utf16(text) - utf16(text.lstrip())
    kept = text.strip()
    size = utf16(kept)
    moved = []
    for entity in entities:
        start = max(0, entity["offset"] - cut)
        end = min(size, entity["offset"] - cut + entity["length"])
        if end > start:
            moved.append(entity | {"offset": start, "length": end - start})
    return kept, moved


def _given(entities: list[Json]) -> list[Json]:
    for entity in entities:
        if not isinstance(entity, dict) or entity.get("type") not in _KNOWN:
            raise bad("can't parse MessageEntity: unsupported type specified")
        if not all(isinstance(entity.get(key), int) for key in ("offset", "length")):
            raise bad("can't parse MessageEntity: Can't find field \"offset\"")
    return entities


def read_markup(source: str, parse_mode: str, entities: list[Json] | None) -> tuple[str, list[Json]]:
    """Text and entities of `source`; raises 400 when the mode is unknown or the markup broken."""
    mode = parse_mode.lower()
    if mode in {"markdown", "markdownv2"}:
        raise NotImitated(f"parse mode {parse_mode}")
    if mode not in {"", "html"}:
        raise bad("unsupported parse_mode")
    return parse_html(source) if mode else (source, _given(entities or []))


def formatted(params: Params, name: str) -> tuple[str, list[Json]]:
    """The text or caption of a call; raises 400 when broken or too long. It may come out empty.

    Length is counted in UTF-16 code units, the stricter reading of the documentation's "characters".
    """
    listed = params.objects("entities" if name == "text" else "caption_entities", "entities")
    text, entities = _trimmed(*read_markup(params.text(name), params.text("parse_mode"), listed))
    limit, sentence = (MAX_TEXT, TEXT_TOO_LONG) if name == "text" else (MAX_CAPTION, CAPTION_TOO_LONG)
    if utf16(text) > limit:
        raise bad(sentence)
    return text, found_entities(text, entities)
