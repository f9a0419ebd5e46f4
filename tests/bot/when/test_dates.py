"""Days, hours and durations as people say them: every way a day is written, and what may be two of them."""

from __future__ import annotations

from datetime import date, time

import pytest
from stillroom_bot.when.dates import days_in, times_in
from stillroom_bot.when.durations import duration_in
from stillroom_bot.when.moments import say_span

WEDNESDAY = date(2026, 11, 25)


def days(text: str, past: bool = False) -> list[tuple[str, ...]]:
    return [tuple(f"{d:%Y-%m-%d}" for d in s.may_be) for s in days_in(text, WEDNESDAY, past)]


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-11-27", "2026-11-27"), ("27 Nov", "2026-11-27"), ("the 27th of November", "2026-11-27"),
        ("November 27, 2027", "2027-11-27"), ("27/11", "2026-11-27"), ("27/11/26", "2026-11-27"),
        ("31.12.", "2026-12-31"), ("1 March", "2027-03-01"), ("tomorrow", "2026-11-26"), ("tonight", "2026-11-25"),
        ("day after tomorrow", "2026-11-27"), ("Friday", "2026-11-27"), ("this wed", "2026-11-25"),
        ("tues 19:00", "2026-12-01"), ("40 sours sat 7 pm", "2026-11-28"), ("29 Feb", "2028-02-29"),
    ],
)
def test_a_plain_day(text: str, day: str) -> None:
    assert days(text) == [(day,)]


@pytest.mark.parametrize(
    ("text", "both"),
    [
        ("03/04", ("2027-04-03", "2027-03-04")), ("Wednesday", ("2026-11-25", "2026-12-02")),
        ("next Friday", ("2026-11-27", "2026-12-04")), ("5/6/2027", ("2027-06-05", "2027-05-06")),
    ],
)
def test_a_day_that_may_be_two(text: str, both: tuple[str, ...]) -> None:
    assert days(text) == [both]


@pytest.mark.parametrize("text", ["30 Feb", "32/13", "31 June", "1/2 l milk", "40 midnight sun, 25 wed sour",
                                  "may I have 3 g of salt"])
def test_no_day(text: str) -> None:
    assert days(text) == []


def test_looking_back() -> None:
    assert days("Friday", past=True) == [("2026-11-20",)] and days("24 Dec", past=True) == [("2025-12-24",)]
    assert days("yesterday") == [("2026-11-24",)]


@pytest.mark.parametrize(
    ("text", "times"),
    [
        ("19:00", [time(19)]), ("7 pm", [time(19)]), ("7:30 p.m.", [time(19, 30)]), ("12 am", [time(0)]),
        ("noon", [time(12)]),
        ("19h30", [time(19, 30)]), ("at 7", [time(7), time(19)]), ("at four o'clock", [time(4), time(16)]),
        ("at 20 %", []), ("at 4 °C", []), ("25:00", []), ("at 12 ml", []),
    ],
)
def test_hours(text: str, times: list[time]) -> None:
    assert [t for s in times_in(text) for t in s.may_be] == times


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("48 h", 172800), ("20 minutes", 1200), ("an hour and a half", 5400), ("half an hour", 1800),
        ("3 days 4 hours", 273600),
        ("1.5 days", 129600), ("20-minute", 1200), ("two weeks", 1209600), ("2 h and 30 min", 9000),
    ],
)
def test_durations(text: str, seconds: float) -> None:
    found = duration_in(f"wait {text} then strain")
    assert found is not None and found[0] == pytest.approx(seconds)


def test_no_duration_in_other_words() -> None:
    assert duration_in("and 40 drinks, a dash, a minty second") is None
    assert duration_in("9" * 400 + " days") is not None


@pytest.mark.parametrize(("seconds", "said"), [(45, "45 s"), (1200, "20 min"), (5400, "1 h 30 min"), (172800, "48 h"),
                                               (777600, "9 days"), (7776000 + 7200, "90 days 2 h")])
def test_a_span_is_said(seconds: float, said: str) -> None:
    assert say_span(seconds) == said
