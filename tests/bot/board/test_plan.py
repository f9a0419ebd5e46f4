"""A plan, checked by hand; days that may be two; both changes of the clock; what a plan refuses.

The invented specs below are ours.  By hand, for 40 garden sours and 25 porch punches:

    cordial   40 × 30 ml + 25 × 20 ml = 1200 + 500 = 1700 ml, 1.7 times its spec (1 litre)
    oleo      1.7 × 240 = 408 ml, 3.4 times its spec (120 ml): 340 g peel and 340 g sugar
    juice     1.7 × 600 = 1020 ml: 1020 / 30 = 34 limes; peel 340 / 5 = 68 limes, so 68 are bought
    sugar     1.7 × 400 + 340 = 1020 g; malic acid 1.7 × 3 = 5.1 g
    gin       40 × 50 = 2000 ml, 2.86 bottles of 700 ml: 3; rum 25 × 40 = 1000 ml, 1.43 bottles: 2
    eggs      40 × 20 = 800 ml of white, 800 / 30 = 26.7: 27
    bitters   40 × 0.002 g = 0.08 g: less than ten steps of 0.01 g
    start     19:00 - 12 h (the cordial's own) = 07:00, and 48 h before that (peel sugar) for the oleo

Juice and peel of a lime: the table of fruit yields.  48 h for peel sugar: common practice, no source.
"""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from stillroom import Amount, Kernel, Line
from stillroom_bot.board import Book, KeptSpec
from stillroom_bot.conversation import Conversation
from stillroom_bot.reply import Reply
from stillroom_bot.state import State

from .conftest import Shelf

NOW = datetime(2026, 11, 23, 9, 0, tzinfo=UTC)  # a Monday
ASK = "Friday 19:00, 40 garden sour, 25 porch punch"


@pytest.fixture(scope="module")
def kernel() -> Kernel:
    return Kernel()


@pytest.fixture(scope="module")
def book(kernel: Kernel, shelf: Shelf) -> Book:
    def a(value: float, unit: str) -> Amount:
        return Amount(value, unit, kernel.units[unit].to_base(value))

    def lines(*rows: tuple[float, str, str]) -> tuple[Line, ...]:
        return tuple(Line(thing, a(value, unit)) for value, unit, thing in rows)

    ml, g = "milliliter", "gram"
    oleo = KeptSpec(0, "Lime oleo", lines((100, g, "lime peel"), (100, g, "sugar")), makes=a(120, ml))
    cordial = KeptSpec(0, "Lime cordial", lines(
        (600, ml, "lime juice"), (240, ml, "lime oleo"), (400, g, "sugar"), (3, g, "malic acid")),
        makes=a(1, "liter"), rests=a(12, "hour"), keeps=a(10, "day"))
    sour = KeptSpec(0, "Garden sour", lines(
        (50, ml, "gin"), (30, ml, "lime cordial"), (20, ml, "egg white"), (0.002, g, "gentian")), ("Shake.",))
    punch = KeptSpec(0, "Porch punch", lines((40, ml, "dark rum"), (20, ml, "lime cordial"), (60, ml, "brewed tea")))
    foam = KeptSpec(0, "Ginger foam", lines((1000, ml, "ginger juice"), (10, g, "gelatine")),
                    ("Charge a 0.5 l siphon.",))
    made = Book()
    for spec in (oleo, cordial, sour, punch, foam):
        made = made.put(spec)
    return shelf.through(made)


def ask(kernel: Kernel, book: Book, *texts: str, now: datetime = NOW, zone: str = "Europe/Rome") -> Reply:
    talker, state = Conversation(kernel, clock=lambda: now), State(settings={"zone": zone}, book=book)
    reply = None
    for text in texts:
        reply, state = talker.answer(text, state)
        state = State.from_json(state.to_json()).but(book=book)
    assert reply is not None
    return reply


def test_a_plan_by_hand(kernel: Kernel, book: Book) -> None:
    reply = ask(kernel, book, ASK)
    assert reply.headline == ("Plan for Friday 27 November, 19:00: 40 Garden sour, 25 Porch punch. "
                              "First: Lime oleo, by Wednesday 25 November, 07:00.")
    oleo, cordial, sour, punch, heading, *rest = reply.body
    assert oleo.startswith("1. Lime oleo, 408 ml: start by Wednesday 25 November, 07:00, stands 48 h")
    assert oleo.endswith("340 g lime peel, 340 g sugar.")
    assert cordial.startswith("2. Lime cordial, 1.7 l: start by Friday 27 November, 07:00, stands 12 h, "
                              "not before Tuesday 17 November, 19:00.")
    assert cordial.endswith("1.02 l lime juice, 408 ml lime oleo, 680 g sugar, 5.1 g malic acid.")
    assert sour.startswith("3. Garden sour, 40: at the service. 2 l gin, 1.2 l lime cordial, 800 ml egg white")
    assert punch.startswith("4. Porch punch, 25: at the service. 1 l dark rum, 500 ml lime cordial, 1.5 l brewed tea")
    assert heading == "To buy:"
    buy = dict(line.removeprefix("• ").split(": ", 1) for line in rest if line.startswith("•"))
    assert {k: v.partition(" (")[0] for k, v in buy.items()} == {
        "lime": "68", "gin": "3 bottles of 700 ml", "dark rum": "2 bottles of 700 ml", "eggs": "27",
        "brewed tea": "1.5 l", "sugar": "1.02 kg", "malic acid": "5.1 g", "gentian": "0.08 g"}
    assert "1.02 l of juice and 340 g of peel" in buy["lime"] and "peel them before" in buy["lime"]
    assert any("Too little for the scale" in line and "0.08 g of gentian" in line for line in rest)
    assert any("salmonella" in line for line in rest), "raw egg is warned of"


def test_a_coarser_scale_finds_more_short(kernel: Kernel, book: Book) -> None:
    reply = ask(kernel, book, "our scale reads 1 g", ASK)
    short = next(line for line in reply.body if "Too little for the scale" in line)
    assert "5.1 g of malic acid in Lime cordial" in short and "0.08 g of gentian in Garden sour" in short
    assert "malic" not in next(line for line in ask(kernel, book, ASK).body if "Too little" in line)


def test_chargers_by_the_siphon_of_the_method(kernel: Kernel, book: Book) -> None:
    """1 l in a 0.5 l siphon is two fills of one charger each (common practice, no source)."""
    reply = ask(kernel, book, "plan Friday 19:00: 1 l ginger foam")
    assert "N2O chargers: 2 (for 2 fills of a 0.5 l siphon" in reply.text and "Nitrous oxide" in reply.text


@pytest.mark.parametrize(
    ("now", "text", "start"),
    [
        # 29 March 2026: Rome goes from 02:00 to 03:00.  19:00 CEST is 17:00 UTC; 60 h before is 05:00 UTC, 06:00 CET.
        (datetime(2026, 3, 25, 9, tzinfo=UTC), "Sunday 29 March 19:00, 40 garden sour", "Friday 27 March, 06:00"),
        # 25 October 2026: from 03:00 back to 02:00.  19:00 CET is 18:00 UTC; 60 h before is 06:00 UTC, 08:00 CEST.
        (datetime(2026, 10, 20, 9, tzinfo=UTC), "Sunday 25 October 19:00, 40 garden sour", "Friday 23 October, 08:00"),
    ],
)
def test_hours_are_counted_as_they_pass_when_the_clock_is_changed(
    kernel: Kernel, book: Book, now: datetime, text: str, start: str
) -> None:
    reply = ask(kernel, book, text, now=now)
    assert f"First: Lime oleo, by {start}." in reply.headline and "clock is changed" in reply.text


def test_an_hour_that_the_clock_skips_is_said(kernel: Kernel, book: Book) -> None:
    spring = ask(kernel, book, "plan 2026-03-29 02:30, 4 garden sour", now=datetime(2026, 3, 20, tzinfo=UTC))
    assert "03:30" in spring.headline and "never shows 02:30" in spring.text


def test_an_hour_that_the_clock_shows_twice_is_asked(kernel: Kernel, book: Book) -> None:
    now = datetime(2026, 10, 20, tzinfo=UTC)
    reply = ask(kernel, book, "plan 2026-10-25 02:30, 4 garden sour", now=now)
    assert reply.status == "asks"
    assert reply.buttons == ("Sunday 25 October, 02:30 CEST", "Sunday 25 October, 02:30 CET")
    for button in reply.buttons:
        chosen = ask(kernel, book, "plan 2026-10-25 02:30, 4 garden sour", button, now=now)
        assert f"Plan for {button}:" in chosen.headline
    again = ask(kernel, book, "plan 2026-10-25 02:30 CET, 4 garden sour", "what do I buy?", now=now)
    assert again.headline.startswith("To buy for Sunday 25 October, 02:30 CET")


@pytest.mark.parametrize(
    ("text", "now", "buttons"),
    [
        ("plan 03/04 19:00, 4 garden sour", NOW, ("Saturday 3 April 2027, 19:00", "Thursday 4 March 2027, 19:00")),
        ("Friday 19:00, 4 garden sour", datetime(2026, 11, 27, 9, tzinfo=UTC),
         ("Friday 27 November, 19:00", "Friday 4 December, 19:00")),
        ("next Friday 19:00, 4 garden sour", NOW, ("Friday 27 November, 19:00", "Friday 4 December, 19:00")),
        ("Friday at 7, 4 garden sour", NOW, ("Friday 27 November, 07:00", "Friday 27 November, 19:00")),
        ("Friday 28 November 19:00, 4 garden sour", NOW, ("Friday 27 November", "Saturday 28 November")),
    ],
)
def test_what_may_be_two_times_is_asked(
    kernel: Kernel, book: Book, text: str, now: datetime, buttons: tuple[str, ...]
) -> None:
    reply = ask(kernel, book, text, now=now)
    assert reply.status == "asks" and reply.buttons == buttons
    for button in buttons:
        assert button.partition(",")[0].removesuffix(" 2027") in ask(kernel, book, text, button, now=now).headline


def test_a_plan_too_late_says_by_how_much(kernel: Kernel, book: Book) -> None:
    reply = ask(kernel, book, ASK, now=datetime(2026, 11, 25, 14, tzinfo=UTC))
    assert "Lime oleo should have been started 8 h ago" in reply.text
    assert ask(kernel, book, "plan 2026-11-20 19:00, 4 garden sour").status == "declined"


def test_a_reminder_for_each_start(kernel: Kernel, book: Book) -> None:
    reply = ask(kernel, book, ASK, "remind me of the plan")
    assert reply.body == ("• Wednesday 25 November, 07:00: start Lime oleo, for Friday 27 November, 19:00",
                          "• Friday 27 November, 07:00: start Lime cordial, for Friday 27 November, 19:00")
    twice = ask(kernel, book, ASK, "remind me of the plan", "remind me of the plan", "reminders?")
    assert twice.headline == "2 reminders"


def test_what_cannot_be_planned_is_refused_with_the_reason(kernel: Kernel, book: Book) -> None:
    looped = book.put(KeptSpec(0, "Echo", (Line("echo base", Amount(1, "milliliter", 1)),)))
    looped = looped.put(KeptSpec(0, "Echo base", (Line("echo", Amount(1, "milliliter", 1)),)))
    assert "making itself" in ask(kernel, looped, "plan Friday 19:00, 4 echo").text
    assert "unknown" not in ask(kernel, book, "Friday 19:00, 4 gimcrack, 3 garden sour").text
    assert "gimcrack" in ask(kernel, book, "Friday 19:00, 4 gimcrack, 3 garden sour").text
    assert ask(kernel, book, "plan for 30 garden sours").status == "asks"
    assert "makes 1 l" in ask(kernel, book, "plan Friday 19:00, 4 lime cordial").text.replace("1 liter", "1 l")


@pytest.mark.parametrize("text", [
    "friday we sell 30 drinks, 50 ml gin each, how much gin?", "12:30 we need 2 l saline",
    "Friday 19:00, foam base has 48 hr life, made thursday 15:00, it's friday 21:00 now. hours remaining?"])
def test_an_ordinary_question_with_a_day_in_it_stays_one(kernel: Kernel, book: Book, text: str) -> None:
    with_book, without = ask(kernel, book, text), ask(kernel, Book(), text)
    assert with_book.to_json() == without.to_json() and "plan" not in with_book.headline.lower()


@pytest.mark.parametrize("text", [
    "we have 40 garden sours and 25 porch punches on Friday at 19:00",
    "prep list for Friday 19:00: 40 garden sour, 25 porch punch",
    "what do I need to prep for Friday 19:00, 40 garden sours and 25 porch punches?",
    "when do I start 40 garden sour and 25 porch punch for Friday 7 pm?",
    "shopping list for Friday 7pm, garden sour x 40, porch punch x 25",
    "Fri 19:00 - 40 garden sour + 25 porch punch",
    "what do we need to buy for 27 November at 19:00 if we sell 40 garden sour and 25 porch punch?"])
def test_a_plan_in_the_words_of_a_hurried_kitchen(kernel: Kernel, book: Book, text: str) -> None:
    assert ask(kernel, book, text).body == ask(kernel, book, ASK).body


def test_a_dozen_is_twelve(kernel: Kernel, book: Book) -> None:
    dozens = ask(kernel, book, "Friday 19:00: a dozen garden sour, two dozen porch punch")
    assert dozens.body == ask(kernel, book, "Friday 19:00: 12 garden sour, 24 porch punch").body


def test_the_plan_stays_while_other_things_are_asked(kernel: Kernel, book: Book) -> None:
    between = "how much salt for 250 ml of 20% saline?"
    assert ask(kernel, book, ASK, between, "show me the plan").body == ask(kernel, book, ASK).body
    assert "2 starts" in ask(kernel, book, ASK, between, "remind me of the plan").headline
    assert ask(kernel, book, ASK, between, "draw the plan").attachments


def test_a_plan_of_nothing_is_asked_about(kernel: Kernel, book: Book) -> None:
    reply = ask(kernel, book, "plan for Friday 19:00")
    assert reply.status == "asks" and "Friday 19:00, 40" in reply.text


@pytest.mark.parametrize(("text", "gelatine"), [("1.5 l of the ginger foam", 15), ("2.5 litres of ginger foam", 25)])
def test_a_decimal_is_no_day(kernel: Kernel, book: Book, text: str, gelatine: float) -> None:
    """10 g to the litre, which its volume passes over: it is scaled, and nobody asks for when."""
    reply = ask(kernel, book, text)
    assert {v["name"]: v["value"] for v in reply.data["answer"]}["gelatine"] == pytest.approx(gelatine)


@pytest.mark.parametrize("text", [
    "40 garden sours and 25 porch punches friday at 7pm",
    "40 garden sour, 25 porch punch for friday 19:00",
    "service friday 19:00 - 40 garden sour / 25 porch punch",
    "we serve 40 garden sour and 25 porch punch friday 19:00, when do we start?",
    "in 106 hours: 40 garden sour, 25 porch punch",
])
def test_the_same_plan_as_a_bar_says_it(kernel: Kernel, book: Book, text: str) -> None:
    """In Rome it is ten on Monday: 106 hours on it is eight on Friday."""
    reply = ask(kernel, book, text)
    hour = "20:00" if text.startswith("in ") else "19:00"
    assert reply.headline.startswith(f"Plan for Friday 27 November, {hour}: 40 Garden sour, 25 Porch punch.")


def test_a_question_that_names_a_day_behind_is_no_plan(kernel: Kernel, book: Book) -> None:
    assert "Plan for" not in ask(kernel, book, "40 garden sours on friday 7pm, how much gin is that?").headline


@pytest.mark.parametrize("text", ["shopping list", "what do I buy?", "what do we need to order?"])
def test_what_to_buy_for_the_plan_before(kernel: Kernel, book: Book, text: str) -> None:
    reply = ask(kernel, book, ASK, text)
    assert reply.headline == "To buy for Friday 27 November, 19:00: 40 Garden sour, 25 Porch punch."
    assert reply.body == tuple(row for row in ask(kernel, book, ASK).body if row.startswith("• "))
    assert ask(kernel, book, text).headline != reply.headline, "there is no plan before"


def test_when_to_start_by_the_plan_before(kernel: Kernel, book: Book) -> None:
    assert ask(kernel, book, ASK, "when do I start?").body == ask(kernel, book, ASK).body


def test_batches_of_what_is_not_counted(kernel: Kernel, book: Book) -> None:
    """A batch of the cordial is a litre."""
    reply = ask(kernel, book, "Friday 19:00, 2 batches of lime cordial")
    assert reply.headline.startswith("Plan for Friday 27 November, 19:00: 2 l Lime cordial.")
    assert "1.2 l lime juice, 480 ml lime oleo, 800 g sugar, 6 g malic acid." in reply.text
    assert "“2 batches of Lime cordial”" in ask(kernel, book, "Friday 19:00, 2 lime cordial").headline


def test_what_goes_in_is_warned_of(kernel: Kernel, book: Book) -> None:
    milk = KeptSpec(0, "Milk flip", (Line("whole milk", Amount(100, "milliliter", 100), {}, "milk"),))
    told = ask(kernel, book.put(milk), "Friday 19:00, 5 milk flips").text
    assert "Beware: Milk is an allergen" in told and "Egg" not in told


def test_a_day_of_another_year_says_so(kernel: Kernel, book: Book) -> None:
    """The 8th of November 2026 was a Sunday, and is past; that of 2027 is a Monday."""
    assert "Monday 8 November 2027" in ask(kernel, book, "Sunday 8 November 19:00, 40 garden sour").text
