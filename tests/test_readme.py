"""The README holds: its two commands, its transcripts to the letter, and the numbers in them.

``python tests/test_readme.py --write`` puts what the transcripts print now into the README; the numbers
expected below are worked out by hand and are not rewritten.
"""

from __future__ import annotations

import sys
import tomllib

import pytest
from documents import ROOT, Session, blocks, turns

README = ROOT / "README.md"

EXPECTED = {
    # 1.1478 g/ml is salt at 20 % and 20 °C: Poradnik fizykochemiczny (WNT 1974)
    "how much salt for 250 ml of 20% saline?": ("answered", 250 * 1.1478 * 0.20, "gram", 2e-4),
    "and for 1 litre?": ("answered", 1000 * 1.1478 * 0.20, "gram", 2e-4),
    "how much water?": ("answered", 1000 * 1.1478 * 0.80, "gram", 2e-4),
    # avoirdupois ounce, NIST Handbook 44, Appendix C
    "in oz?": ("answered", 1000 * 1.1478 * 0.80 / 28.349523125, "ounce", 2e-4),
    "gelatine foam at 0.8% for 400 g of cordial": ("answered", 3.2, "gram", 1e-9),
    # 4 drink to 1 milk: common practice, no source
    "how much milk to clarify 2.4 l of punch?": ("answered", 600.0, "milliliter", 1e-9),
    "and at 5 to 1?": ("answered", 480.0, "milliliter", 1e-9),
    # 1 to 1: common practice, no source
    "180 g of lemon peel, how much sugar for the oleo?": ("answered", 180.0, "gram", 1e-9),
    # two for a litre: common practice, no source
    "how many chargers for two fills of a 1 l siphon?": ("answered", 4.0, "count", 0.0),
    # two parts of three are sugar; density at 66 and 67 °Bx: NBS Circular C440, table 114, brought to vacuum
    "1.5 l of rich syrup: how much sugar and water?": (
        "answered", 1500 * (1.32238 + 2 / 3 * (1.32850 - 1.32238)) * 2 / 3, "gram", 6e-4),
    # 51.4 of water to 100 of spirit, from 60 to 40 %: TTB's dilution table at 60 °F, as engineersedge.com prints it
    "bring 700 ml of spirit at 60% down to 40%: how much water?": ("answered", 7 * 51.4, "milliliter", 3e-3),
    "90 ml at 30 % ABV on ice, how much water is picked up?": ("asks", None, "", 0.0),
    # stirring: -1.21 a² + 1.246 a + 0.145, common practice, no source
    "stirred": ("answered", 90 * (-1.21 * 0.09 + 1.246 * 0.3 + 0.145), "milliliter", 1e-9),
    "scale to 30 serves: 50 ml gin, 20 ml lime juice, 15 ml simple syrup, 4% lost": (
        "answered", 50 * 30 / 0.96, "milliliter", 1e-9),
    "menu price 13.20 including 20 % VAT, the ingredients cost 2.42, pour cost?": (
        "answered", 100 * 2.42 / (13.20 / 1.2), "percent", 1e-9),
    "how much salt for 1,250 g of 15% saline?": ("asks", None, "", 0.0),
    "1250 g": ("answered", 187.5, "gram", 1e-9),
    "2 kg of a 30% salt solution: how much salt?": ("declined", None, "", 0.0),
    "sorry, 20%": ("answered", 400.0, "gram", 1e-9),
    "can I stretch the gin with methanol?": ("declined", None, "", 0.0),
    "our dropper gives 27 drops per ml": ("noted", None, "", 0.0),
    "6 drops of 20% saline in a 120 ml drink: what salt percent is the glass?": (
        "answered", 100 * (6 / 27 * 1.1478 * 0.20) / (120 + 6 / 27), "percent", 2e-4),
    # fluid ounce, NIST Handbook 44, Appendix C
    "how many fl oz in 750 ml?": ("answered", 750 / 29.5735295625, "fluid_ounce", 1e-9),
    # the book in bot/examples/quillwort.txt; strengths of what it does not say: common practice, no source
    "forty of the Marsh Light": ("answered", 40 * 45, "milliliter", 1e-9),
    "and for 5 litres?": ("answered", 5000 * 45 / 90, "milliliter", 1e-9),
    "does the Bulrush Sour have egg?": ("noted", None, "", 0.0),
    "what if I use 5 ml less cordial in the Marsh Light?": ("answered", 100 * 45 * 0.47 / 85, "percent", 1e-9),
    # 50 ml at 40 %, 20 ml at 16 %, two dashes at 45 %; the curve of stirring as above
    "how strong is the Night Ferry stirred?": ("answered", 100 * 23.92 / 71.6 / (
        1 - 1.21 * (23.92 / 71.6) ** 2 + 1.246 * 23.92 / 71.6 + 0.145), "percent", 1e-6),
    # a tenth of the lines; in 60 ml of the drink: 30 of gin, 13 1/3 of cordial (of 820), 16 2/3 of juice
    "what does the Heron Bowl cost?": ("answered", 30 * 28 / 700 + (
        0.45 * 1.2 + 0.06 * 18 + 0.018 * 9 + 0.006 * 12) * 40 / 3 / 820 + 50 / 3 * 6 / 1000 + 20 * 11 / 750 + 0.04,
        "currency", 1e-9),
    "Sallow Foam for 500 ml in a half litre siphon": ("answered", 350.0, "milliliter", 1e-9),
    "change the rye in the Lock Keeper to 50 ml": ("noted", None, "", 0.0),
    "undo": ("noted", None, "", 0.0),
    "keep Towpath: 40 ml gin, 20 ml Rush Syrup, 20 ml lemon juice, 60 ml soda water; build over ice": (
        "asks", None, "", 0.0),
    "keep it": ("noted", None, "", 0.0),
    "strength of the Towpath": ("answered", 100 * 16 / 140, "percent", 1e-9),
    "steep chicory at 30 g/l in 2 l of rum, how much chicory?": ("answered", 60.0, "gram", 1e-9),
}


def refreshed(markdown: str) -> tuple[str, Session]:
    """The README with every transcript as it would be now, and the session that it ran in."""
    session = Session()
    entry: dict[str, str] = {}
    for b in blocks(markdown, "toml", "python"):
        if b.language == "toml":
            entry = tomllib.loads(b.text)["project"]["entry-points"]["stillroom"]
    parts, at, plugged = [], 0, False
    for b in blocks(markdown):
        if b.language == "python":
            (name, target), = entry.items()
            plugin = session.plug(name, target, b.text)
            assert not plugin.errors, plugin.errors
            plugged = True
        if b.language == "console":
            parts += [markdown[at:b.start], session.run(b)]
            at = b.end
    assert plugged, "the README shows no plugin"
    return "".join([*parts, markdown[at:]]), session


@pytest.fixture(scope="module")
def markdown() -> str:
    return README.read_text("utf-8")


@pytest.fixture(scope="module")
def now(markdown: str) -> tuple[str, Session]:
    return refreshed(markdown)


def test_it_begins_with_the_job_and_two_commands(markdown: str) -> None:
    title, job, *_ = markdown.split("\n\n")
    assert title.startswith("# ") and "\n" not in title
    assert len(job) > 200 and not job.startswith(("#", "`", "-", ">"))
    first, second = blocks(markdown, "sh")
    assert first.text == "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/stillroom chat\n"
    assert second.text == "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/pytest\n"
    assert second.end < markdown.index("\n## ")


def test_transcripts_are_what_is_printed(markdown: str, now: tuple[str, Session]) -> None:
    assert markdown == now[0], "python tests/test_readme.py --write refreshes them"


@pytest.mark.parametrize("question", EXPECTED)
def test_numbers_are_right(question: str, now: tuple[str, Session]) -> None:
    status, value, unit, tolerance = EXPECTED[question]
    reply = now[1].replies[question]
    assert reply.status == status, reply.text
    if value is not None:
        first = reply.to_json()["answer"][0]
        assert first["unit"] == unit
        assert first["value"] == pytest.approx(value, rel=tolerance)


def test_every_transcript_has_its_number(markdown: str, now: tuple[str, Session]) -> None:
    typed = [t.typed for b in blocks(markdown, "console") for t in turns(b) if t.prompt == ">" and t.typed[0] != "/"]
    assert {*typed, *now[1].replies} == set(EXPECTED)


if __name__ == "__main__":
    before = README.read_text("utf-8")
    after = refreshed(before)[0]
    if "--write" in sys.argv:
        README.write_text(after, "utf-8")
    written = "refreshed" if "--write" in sys.argv else "out of date: --write refreshes it"
    print("as it was" if after == before else written)
