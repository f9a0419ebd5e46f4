"""Curves and timelines: their points by hand, that they are pictures with ink on them, and what is said without one."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from io import BytesIO

import pytest
from PIL import Image
from stillroom import Amount, Kernel, Line
from stillroom_bot.board import Book, KeptSpec
from stillroom_bot.conversation import Conversation
from stillroom_bot.pictures.curve import by_ice, by_water
from stillroom_bot.reply import Reply
from stillroom_bot.state import State

NOW = datetime(2026, 11, 23, 9, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def kernel() -> Kernel:
    return Kernel()


def book() -> Book:
    def ml(value: float, thing: str, abv: float | None = None) -> Line:
        return Line(thing, Amount(value, "milliliter", value), {"abv": Amount(abv, "abv", abv / 100)} if abv else {})

    rests = Amount(12, "hour", 12 * 3600)
    made = Book().put(KeptSpec(0, "Lime cordial", (ml(600, "lime juice"), ml(400, "water")), rests=rests))
    return made.put(KeptSpec(0, "Porch punch", (ml(40, "rum", 50), ml(60, "lime cordial"))))


def said(kernel: Kernel, *texts: str) -> Reply:
    talker, state = Conversation(kernel, clock=lambda: NOW), State(settings={"zone": "UTC"}, book=book())
    reply = None
    for text in texts:
        reply, state = talker.answer(text, state)
        state = State.from_json(state.to_json()).but(book=book())
    assert reply is not None
    return reply


def test_a_curve_by_hand(kernel: Kernel) -> None:
    """1 l at 30 %: with 0.5 l of water 30 / 1.5 = 20 %, with 1 l 15 %.  Stirred, by the trade's curve:
    -1.21 × 0.09 + 1.246 × 0.3 + 0.145 = 0.4099, and 30 / 1.4099 = 21.28 % (common practice, no source)."""
    curve = by_water(kernel, "x", 1000, 30)
    assert curve is not None
    (line,) = curve.series
    middle = len(line.x) // 2
    assert (line.x[0], line.strength[0], line.dilution[0]) == pytest.approx((0, 30, 0))
    assert (line.x[middle], line.strength[middle], line.dilution[middle]) == pytest.approx((500, 20, 50))
    assert (line.x[-1], line.strength[-1], line.dilution[-1]) == pytest.approx((1000, 15, 100))
    stirred = next(m for m in curve.marks if m.name == "stirred")
    assert (stirred.x, stirred.strength) == pytest.approx((409.9, 21.28), abs=0.01)


def test_curves_of_time_on_ice_pass_through_the_usual_times(kernel: Kernel) -> None:
    """After 30 s of stirring and 12 s of shaking they are where the trade's curves of dilution are: 40.99 % and
    -1.567 × 0.09 + 1.742 × 0.3 + 0.203 = 58.46 % (common practice, no source); and they never fall."""
    curve = by_ice(kernel, "x", 90, 30, 90)
    assert curve is not None
    by_name = {s.name: dict(zip(s.x, s.dilution, strict=True)) for s in curve.series}
    assert by_name["stirred"][30] == pytest.approx(40.99) and by_name["shaken"][12] == pytest.approx(58.457, abs=0.01)
    assert all(list(s.dilution) == sorted(s.dilution) and s.dilution[0] == 0 for s in curve.series)
    reply = said(kernel, "plot the strength of 90 ml at 30 % against time on ice")
    assert "time on ice" in reply.headline and "guess" in reply.text
    _is_drawn(reply.attachments[0].content)


@pytest.mark.parametrize(
    ("texts", "headline"),
    [
        (["plot the strength of 2 l at 30 % against added water"], "The drink: 2 l at 30.0 % vol"),
        (["plot 25 porch punch against added water"], "Porch punch: 2.5 l at 20.0 % vol"),
        (["draw the dilution of the porch punch against water"], "Porch punch: 100 ml at 20.0 % vol"),
        (["60 ml gin at 45%, 25 ml lemon juice and 20 ml syrup, abv before ice?", "draw that against added water"],
         "The drink: 105 ml at 25.7 % vol"),
        (["stirred, 90 ml at 30% abv, how much water is picked up?", "plot the strength against water"],
         "90 ml at 30.0 %"),
    ],
)
def test_a_curve_of_what_is_meant(kernel: Kernel, texts: list[str], headline: str) -> None:
    reply = said(kernel, *texts)
    assert headline in reply.headline, reply.text
    (file,) = reply.attachments
    _is_drawn(file.content)


def test_the_timeline_of_a_plan(kernel: Kernel) -> None:
    assert said(kernel, "draw the plan").status == "declined"
    reply = said(kernel, "plan Friday 19:00, 25 porch punch", "draw the plan")
    assert reply.body[0] == "Lime cordial: start by Friday 27 November, 07:00"
    (file,) = reply.attachments
    assert file.picture
    _is_drawn(file.content)


def test_a_spec_with_dry_things_has_a_curve(kernel: Kernel) -> None:
    """60 ml rum at 50 % and 40 ml juice: 100 ml at 30 %; ten grams of sugar take up no room, and that is said."""
    keep = "keep Reed Sour: 60 ml rum at 50 %, 40 ml lime juice, 10 g sugar"
    draw = "draw the strength of the reed sour against water"
    for texts in ([draw], ["strength of the reed sour", "plot that against water"]):
        reply = talked(kernel, keep, "yes", *texts)
        assert "100 ml at 30.0 % vol" in reply.headline, reply.text
        assert "not counted in the volume: sugar" in reply.text
        _is_drawn(reply.attachments[0].content)


def test_a_bowl_for_ten_is_a_tenth_for_one(kernel: Kernel) -> None:
    """600 ml at 50 % and 400 ml of juice for ten: forty serves are 4 l at 30 %."""
    keep = "keep Reed Bowl: 600 ml rum at 50 %, 400 ml lime juice; serves 10"
    assert "4 l at 30.0 % vol" in talked(kernel, keep, "yes", "plot 40 reed bowls against added water").headline
    assert "1 l at 30.0 % vol" in talked(kernel, keep, "yes", "plot the strength of the reed bowl").headline


@pytest.mark.parametrize(
    ("keep", "text", "why"),
    [
        ("keep Rush Syrup: 500 g sugar, 250 ml water", "draw the strength of rush syrup", "holds no alcohol"),
        ("keep Myst: 60 ml rum, 30 ml zorbo", "draw the strength of the myst", "abv of zorbo is not known"),
        ("keep Myst: 60 ml rum, 30 ml lime juice", "draw the strength of the sedge", "no spec called “sedge”"),
    ],
)
def test_why_there_is_no_curve(kernel: Kernel, keep: str, text: str, why: str) -> None:
    reply = talked(kernel, keep, "yes", text)
    assert reply.status == "declined" and why in reply.text


def talked(kernel: Kernel, *texts: str) -> Reply:
    """The last reply of a chat that keeps its own book."""
    talker, state = Conversation(kernel, clock=lambda: NOW), State()
    for text in texts:
        reply, state = talker.answer(text, state)
    return reply


def _is_drawn(content: bytes) -> None:
    picture = Image.open(BytesIO(content)).convert("RGB")
    colours = picture.getcolors(1 << 24) or []
    white = sum(n for n, c in colours if c == (255, 255, 255)) / (picture.width * picture.height)
    assert min(picture.size) >= 350 and 0.5 < white < 0.99 and len(colours) > 20


def test_a_picture_that_cannot_be_drawn_is_said(kernel: Kernel, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "matplotlib.figure", None)
    reply = said(kernel, "plot the strength of 2 l at 30 % against added water")
    assert reply.status == "declined" and "package matplotlib" in reply.text


@pytest.mark.parametrize("text", ["draw 6 ml of bitters over 12 glasses, how much each?", "chart 1.2 bar in psi"])
def test_other_talk_of_drawing_is_left_alone(kernel: Kernel, text: str) -> None:
    assert not said(kernel, text).attachments
