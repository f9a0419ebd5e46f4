"""The HTML parse mode, against the rules and examples of core.telegram.org/bots/api#html-style."""

from __future__ import annotations

import pytest

from .errors import ApiError
from .formatting import found_entities
from .markup import parse_html

# Refusals are worded from memory of the published server.
BROKEN = [
    ("<b>75 g", 'Can\'t find end tag corresponding to start tag "b"'),
    ("75 g</b>", "Unexpected end tag at byte offset 4"),
    ("<b><i>75 g</b></i>", 'Unmatched end tag at byte offset 10, expected "</i>", found "</b>"'),
    ("½ <h1>75 g</h1>", 'Unsupported start tag "h1" at byte offset 3'),
    ("1 < 2 ml", 'Unsupported start tag "" at byte offset 2'),
    ("abv <20", "Unclosed start tag at byte offset 4"),
    ('<a href="x.org>75', 'Unclosed start tag "a" at byte offset 0'),
    ("<span>75</span>", 'Tag "span" must have class "tg-spoiler" at byte offset 0'),
]


@pytest.mark.parametrize(("source", "sentence"), BROKEN, ids=[source for source, _ in BROKEN])
def test_broken_markup_is_refused(source: str, sentence: str) -> None:
    with pytest.raises(ApiError) as caught:
        parse_html(source)
    assert caught.value.code == 400
    assert caught.value.description == f"Bad Request: can't parse entities: {sentence}"


WHOLE = [
    ("plain & simple &copy;", "plain & simple &copy;", []),
    ("2 &lt; 3 &amp; &#189;", "2 < 3 & ½", []),
    ("<b>75 g</b>", "75 g", [("bold", 0, 4)]),
    ("\U0001f34b <strong>2 <em>g</em></strong>", "\U0001f34b 2 g", [("bold", 3, 3), ("italic", 5, 1)]),
    ("<code>a</code><u></u>", "a", [("code", 0, 1)]),
    ("<blockquote expandable>a\nb</blockquote>", "a\nb", [("expandable_blockquote", 0, 3)]),
    ('<span class="tg-spoiler">a</span><tg-spoiler>b</tg-spoiler>', "ab",
     [("spoiler", 0, 1), ("spoiler", 1, 1)]),
]  # fmt: skip


@pytest.mark.parametrize(("source", "text", "entities"), WHOLE, ids=[row[0] for row in WHOLE])
def test_whole_markup_is_read(source: str, text: str, entities: list[tuple[str, int, int]]) -> None:
    plain, found = parse_html(source)
    assert plain == text
    assert [(e["type"], e["offset"], e["length"]) for e in found] == entities


def test_links_and_code_carry_their_attributes() -> None:
    _, found = parse_html(
        '<a href="https://example.org/?a=1&amp;b=2">x</a><a href="tg://user?id=7">y</a>'
        '<pre><code class="language-python">z</code></pre>'
    )
    assert found == [
        {"type": "text_link", "offset": 0, "length": 1, "url": "https://example.org/?a=1&b=2"},
        {"type": "text_mention", "offset": 1, "length": 1, "user": {"id": 7}},
        {"type": "pre", "offset": 2, "length": 1, "language": "python"},
    ]


def test_the_server_finds_commands_mentions_and_links() -> None:
    text = "½ /syrup@loopback_bot for @mara_jo, not 1/2 or a@b.cd: https://example.org/x"
    kinds = {(e["type"], text[e["offset"] : e["offset"] + e["length"]]) for e in found_entities(text, [])}
    assert kinds == {
        ("bot_command", "/syrup@loopback_bot"),
        ("mention", "@mara_jo"),
        ("url", "https://example.org/x"),
    }
