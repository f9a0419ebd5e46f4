"""Whatever a person, a cat on the keyboard or a prankster sends, there is a reply and it is sound.

By default a few hundred messages are drawn, the same in every run; ``STILLROOM_ROBUST=long`` draws
20,000 new ones of each kind, ``STILLROOM_ROBUST=3000`` as many as it says.
``python tests/bot/test_robust.py [N]`` reports the slowest of N messages.
"""

from __future__ import annotations

import json
import math
import os
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.reply import STATUSES, Reply
from stillroom_bot.state import State

if __package__:
    from . import messages
else:
    import messages

ASKED_FOR = os.environ.get("STILLROOM_ROBUST", "")
MANY = 20_000 if ASKED_FOR == "long" else int(ASKED_FOR or 0)
LIMIT_MS = 50.0
KEYS = set("status question calculator answer values assumptions cautions ignored steps sources asks text".split())


def drawn(examples: int) -> settings:
    """How many messages are drawn; a message may take as long as its first plan takes to derive."""
    return settings(max_examples=MANY or examples, deadline=None, derandomize=not MANY, database=None,
                    suppress_health_check=list(HealthCheck))


@pytest.fixture(scope="module")
def conversation(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Conversation]:
    yield Conversation(Kernel(tmp_path_factory.mktemp("cache")))


def sound(reply: Reply, text: str) -> None:
    """The reply keeps to the machine-readable answer's contract."""
    data = reply.to_json()
    assert reply.status in STATUSES
    assert set(data) == KEYS
    assert data["question"] == text
    assert data["text"].strip()
    json.loads(json.dumps(data, allow_nan=False))
    numbers = [v["value"] for v in (*data["answer"], *data["values"])]
    assert all(isinstance(n, int | float) and math.isfinite(n) for n in numbers)
    assert bool(data["answer"]) == (reply.status == "answered")
    assert (data["asks"] is not None) == (reply.status == "asks")


def kept(state: State) -> State:
    """The state as the next message finds it: written to a row and read again."""
    return State.from_json(json.loads(json.dumps(state.to_json(), allow_nan=False)))


def answered_soundly(conversation: Conversation, text: str) -> None:
    reply, state = conversation.answer(text, State())
    sound(reply, text)
    kept(state)


@drawn(300)
@example("foam base gets gelatine at fourteen grams per litre and xanthan at one and a half grams per litre what do i "
         "weigh of each Cost 1.98, target pour cost 18%, price before tax?")
@example("made on 2147483712 December, today is 3 March at 18:²: how old is it?")
@given(text=messages.ANY)
def test_any_text(conversation: Conversation, text: str) -> None:
    answered_soundly(conversation, text)


@drawn(400)
@given(text=messages.MUTATED)
def test_changed_questions(conversation: Conversation, text: str) -> None:
    answered_soundly(conversation, text)


@drawn(60)
@given(text=messages.CROWD)
def test_a_pasted_list(conversation: Conversation, text: str) -> None:
    answered_soundly(conversation, text)


@drawn(150)
@given(texts=st.lists(st.one_of(messages.MUTATED, messages.PLAIN, messages.ANY), min_size=2, max_size=5))
def test_a_chat_of_them(conversation: Conversation, texts: list[str]) -> None:
    state = State()
    for text in texts:
        reply, state = conversation.answer(text, state)
        sound(reply, text)
        state = kept(state)


@drawn(100)
@given(row=messages.ROWS)
def test_a_damaged_row(conversation: Conversation, row: object) -> None:
    """A row of another version, or none of ours, is a fresh chat or is put up with."""
    data = {**row, "version": 1} if isinstance(row, dict) else row
    reply, state = conversation.answer("and for 2 l?", State.from_json(data))
    sound(reply, "and for 2 l?")
    kept(state)


def test_the_corpus_is_read() -> None:
    assert len(messages.questions()) > 300


def slowest(count: int) -> Iterator[str]:
    """Lines that tell the slowest of ``count`` drawn messages, each timed with its plan made."""
    from time import perf_counter

    found: list[tuple[float, float, str, str]] = []
    with TemporaryDirectory() as folder:
        talk = Conversation(Kernel(Path(folder)))

        @settings(max_examples=count, deadline=None, database=None, suppress_health_check=list(HealthCheck))
        @given(text=st.one_of(messages.MUTATED, messages.ANY, messages.CROWD))
        def each(text: str) -> None:
            times = []
            for _ in range(3):
                began = perf_counter()
                reply, _ = talk.answer(text, State())
                times.append(1000 * (perf_counter() - began))
            found.append((min(times[1:]), times[0], reply.status, text))

        each()
    found.sort(key=lambda x: -x[0])
    ordered = [x[0] for x in found]
    yield f"{len(found)} messages: " + ", ".join(f"{n} {s}" for s, n in Counter(x[2] for x in found).most_common())
    yield (f"median {ordered[len(ordered) // 2]:.1f} ms, 99 % below {ordered[len(ordered) // 100]:.1f} ms, "
           f"over {LIMIT_MS:g} ms: {sum(t > LIMIT_MS for t in ordered)}")
    yield "warm ms  first ms  characters  message"
    yield from (f"{warm:7.1f}  {first:8.1f}  {len(text):10}  {text[:90]!a}" for warm, first, _, text in found[:8])


if __name__ == "__main__":
    import sys

    print("\n".join(slowest(int(sys.argv[1]) if len(sys.argv) > 1 else 500)))
