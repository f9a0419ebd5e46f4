"""Yields, keeping, infusions, alcohol and fizz, each asked for what it can find, in everyday words.

The sentences are our own; sums are worked by hand beside each group.  What is said to be so (a fruit's juice, an egg's
white) is told in the sentence, so nothing rests on a table.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import measures

Row = tuple[str, float, str]

SHARES: list[Row] = [
    ("limes give 25 ml each and one in eight is bad, how many limes for 4 l of juice?", 183, "count"),
    ("limes give 25 ml each, one lime in eight is bad, how many limes for 4 l of juice?", 183, "count"),
    ("every tenth lemon is mouldy. a lemon gives 40 ml, I want 3.6 l of juice. how many lemons should I buy?", 100,
     "count"),
    ("60 oranges, 15 g skin each, but three out of ten go in the bin. usable peel?", 630, "gram"),
    ("600 g of usable peel, 12 g per lemon but a fifth gets chucked. how many lemons?", 63, "count"),
    ("I want 900 g good peel, an orange gives 15 g and a quarter of it is thrown away. how many oranges?", 80, "count"),
    ("out of 5 kg of peaches 1.25 kg went in the bin. what percentage is usable?", 75, "percent"),
]
"""4000 / 25 / 0.875 = 182.9; 3600 / 40 / 0.9; 60 x 15 x 0.7; 600 / 0.8 / 12 = 62.5; 900 / 0.75 / 15; 3.75 / 5."""
EACH: list[Row] = [
    ("two dozen eggs with 28 ml of white apiece, 20 ml in a flip: how many flips?", 33, "count"),
    ("40 sours, 20 ml of egg white each, how many eggs at 30 ml an egg?", 27, "count"),
    ("3 bunches of mint, 40 leaves each, 20 drinks: leaves in each drink?", 6, "count"),
    ("600 ml egg white between 30 sours, how much in each?", 20, "milliliter"),
    ("5 cases of limes gave 6.3 l at 28 ml a lime. how many limes are in a case?", 45, "count"),
    ("lemons come 120 to the box and give 40 ml. boxes for 14.4 l?", 3, "count"),
]
"""24 x 28 / 20 = 33.6; 40 x 20 / 30 = 26.7; 3 x 40 / 20; 600 / 30; 6300 / 28 / 5; 14400 / 40 / 120."""
BY_WEIGHT: list[Row] = [
    ("we get 60 g of zest per kilo of lemons. how many kilos for 450 g of zest?", 7.5, "kilogram"),
    ("12 kg of oranges, 80 g of peel per kilo: peel?", 960, "gram"),
    ("8 kg of apples gave 5 l. how many kilos for 12.5 l?", 20, "kilogram"),
    ("from 6 kg of grapefruit we got 2.7 l. what would 10 kg give?", 4.5, "liter"),
]
"""450 / 60; 12 x 80; 8 x 12.5 / 5; 2.7 x 10 / 6."""
KEPT: list[Row] = [
    ("hibiscus cordial mixed 20 hours ago, good for 72. hours left?", 52, "hour"),
    ("our cordial keeps 14 days, today is day 9: how long has it got?", 5, "day"),
    ("a 12 l batch is good for 4 days, 25 pours of 80 ml every night: how much goes down the drain?", 4, "liter"),
    ("we sell 3 l a day, it keeps 4 days and 2 l went down the drain: how big was the batch?", 14, "liter"),
    ("80 bottles on the shelf keep 7 days and 17 were thrown away: how many did we sell a day?", 9, "count / day"),
    ("every evening we use 1.5 l of a cordial that keeps 6 days. biggest batch?", 9, "liter"),
]
"""72 - 20; 14 - 9; 12 - 4 x 2; 3 x 4 + 2; 63 / 7; 6 x 1.5."""
TURNED: list[Row] = [
    ("100 g of salt in 400 g of water, how many parts water to one part salt?", 4, "dimensionless"),
    ("2 l punch, 500 ml milk. milk to punch ratio?", 0.25, "dimensionless"),
    ("2 l punch, 500 ml milk. punch to milk ratio?", 4, "dimensionless"),
    ("600 g of cherries are sitting in 1.5 kg of brandy. by weight, how many parts brandy to one part fruit is that?",
     2.5, "dimensionless"),
    ("300 g of cherries to 1.5 kg of rum by weight, ratio of cherries to rum?", 0.2, "dimensionless"),
]
"""An order that is named wins: 400 / 100; 500 / 2000 and the other way round; 1500 / 600; 300 / 1500."""
STRONG: list[Row] = [
    ("250 ml of a punch holds 30 ml of pure alcohol. how strong is it?", 12, "percent"),
    ("two 4 cl parts: rum with 40 % and sherry with 15 %. how many grams of alcohol has the drink?", 17.36328, "gram"),
    ("Three litres of rum in, 2.7 out after straining. What percent did the fruit keep?", 10, "percent"),
]
"""30 / 250; 80 ml at 27.5 % is 22 ml at 0.78924 g/ml (OIML R 22); 0.3 / 3."""


@pytest.mark.parametrize("row", [*SHARES, *EACH, *BY_WEIGHT, *KEPT, *TURNED, *STRONG], ids=lambda r: r[0][:60])
def test_what_is_asked_is_found(talk: Conversation, row: Row) -> None:
    measures(talk, *row)


def test_with_no_waste_none_is_kept(talk: Conversation) -> None:
    """``no waste`` after a sum of waste: what was wasted then is none now, so 4 x 3 l can be made."""
    state = talk.answer("we made 15 litres, it keeps 4 days and we sell 3 litres a day, how much is wasted?")[1]
    reply, _ = talk.answer("and how big can the batch be with no waste", state)
    (told,) = reply.data["answer"]
    assert told["name"] == "batch" and talk.kernel.units[told["unit"]].to_base(told["value"]) == pytest.approx(12000)
