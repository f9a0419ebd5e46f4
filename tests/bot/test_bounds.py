"""What a calculator's candidates can come to at most is told before they are put together, and is never too little."""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from stillroom import Kernel
from stillroom_bot.reading.ranking import rank
from stillroom_bot.reading.reader import COVER, Reader
from stillroom_bot.reading.viewer import LEAST, Prospect

CORPUS = sorted((Path(__file__).parent / "corpus").glob("*_dev.jsonl"))
EVERY = 11
CLOSE = 1e-9


def asked() -> Iterator[str]:
    for path in CORPUS:
        for line in path.read_text("utf-8").splitlines()[::EVERY]:
            data = json.loads(line)
            yield from [data["q"]] if "q" in data else [t["text"] for t in data["turns"][:1]]


@pytest.fixture(scope="module")
def reader(tmp_path_factory: pytest.TempPathFactory) -> Reader:
    return Reader(Kernel(tmp_path_factory.mktemp("cache")))


def test_nothing_scores_more_than_was_said_at_most(reader: Reader) -> None:
    seen = 0
    for text in asked():
        message = reader.take_apart(text)
        for cover, id in rank(message, reader.lexicon) if not message.crowded else ():
            profile = reader.profile(id)
            prospect = Prospect(profile, reader.lexicon, message, reader.kernel.units, COVER * cover)
            bounds = list(prospect.most())
            assert all(b <= a + CLOSE for a, b in pairwise(bounds)), (text, id, bounds)
            best = max((c.score for c in prospect.candidates(LEAST)), default=bounds[-1])
            assert best <= bounds[-1] + CLOSE, (text, id, best, bounds)
            seen += 1
    assert seen > 1000

