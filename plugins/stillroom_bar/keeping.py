"""How long things keep, how much to make of them, when to begin.

Times are durations; the table's are typical for clean bottles kept cold, and every answer
says that the local food code comes first.  A time of the house's own always wins.
"""

from __future__ import annotations

from stillroom import Calculator, choice, include, limit, var

from .serves import PEOPLE
from .things import choices_of, said

KINDS = choices_of("keeping", "kind", "low", "high", "days")
PRACTICE = "common practice, no source"
LASTS = "it lasts, they last, lasts for, last for, lasts only, lasts about, will last, that lasts, which lasts"
LIFE = ("keeps, life, shelf life, lasts, live, good for, last, keep, fine for, ok for, okay for, holds, dead after, "
        "off after, bin after, spoils after, stays good, stays fresh, stays good for, " + LASTS)
"""What says how long a thing keeps."""
KEPT = ("keep, keeps, shelf life, life, lasts, good for, fine for, ok for, okay for, dead after, off after, "
        "stays good, " + LASTS)
"""The words without which nothing is said of how long it keeps."""
GONE = ("dump, dumped, tip, tip away, throw, throw out, throw away, throwing, thrown, thrown away, pour away, "
        "pouring away, drain, bin, binned, spoil, spoiled, spoils, waste, wasted, lose, lost, left over, "
        "past it, discard, discarded, sink")
"""What becomes of a thing whose time is over."""
SOLD = "sell, sold, use, used, pour, consume, usage, demand, go through, per day, a day, daily, a night, get through"

DAYS_LEFT = Calculator(
    "days_left",
    "How long a thing keeps, and how long it has left",
    choice("kind", KINDS, fills={"life": "typical"}, words="what it is"),
    var("life", "day", "keeps, life, shelf life, total shelf life, lasts, live, good for, bin it after, "
        "bin after, out after, rule is, "
        "house rule, keep, last, it last, "
        "last for, "
        "holds, it holds, will last, use within, in total, stay good, stay fresh, go off, "
        "gives it", role="need"),
    var("age", "day", "age, made ago, old, ago, made, gone by, opened, bottled, since, in the fridge, "
        "been open, been in, passed, hours old, hrs old, days old, weeks old, how old", role="from"),
    var("elapsed", "day", "from the day that it was made", role="since", shy=True),
    var("left", "day", "left, days left, days remaining, still use, still be used, still good, still ok, "
        "still fine, d left, remaining, remain, use by, still got, still, more, "
        "until it expires, hours left, hrs left, weeks left", role="have"),
    equations=["life = age + left", "age = elapsed"],
    limits=[limit("age <= life", "refuse", "It keeps {life} and is {age} old: its time is over, throw it away.")],
    only=(
        "keep, keeps, shelf life, life, days left, use by, expire, expires, expiry, left, remaining, old, "
        "fridge, last, lasts, good for, days old, day old, hours old, days ago, day ago, gone by, "
        "days more, more days, hours left, hrs left, weeks left, hours old, how old, hours more, more hours, "
        "still use, still ok, still good, still fine, made it on, stay, stays, go off, goes off, still got, "
        "day, days, week, weeks, made on, opened, bottled, date, spoil"
    ),
    words="keep, keeps, shelf life, how long, left, days left, hours left, use by, expire, made, remaining, fridge",
    asked="left, life, age",
    method=[
        "Write the date it was made and the use-by on the bottle: {left} from now.",
        "Usual for {kind}: {kind.low} to {kind.high} days. {kind.note}",
    ],
    cautions=[said("keeping")],
    examples=[
        ("our cordial keeps 14 days and was made 5 days ago, days left?", "9 day"),
        ("keeps 72 h, made 1.5 days ago, hours left?", "36 hour"),
    ],
    source="life = age + what is left",
)

SHELF_LIFE = Calculator(
    "shelf_life",
    "How long a thing usually keeps",
    choice("kind", KINDS, fills={"life": "typical"}, words="what it is"),
    var("life", "day", "keep, last, hold, holds, stay good, stay fresh, go off, shelf life, good for, how long, "
        "how many days, "
        "how many hours, last in the fridge, keep in the fridge, good in the fridge, last in the refrigerator, "
        "keep in the refrigerator, be kept, last chilled, keep chilled, goes off, conserve, conserved, how much time, "
        "before this goes off, before it goes off"),
    equations=[],
    only="conserve, conserved, keep, keeps, kept, last, lasts, stay, stays, shelf life, good for, good, go off, "
    "goes off, spoil, fridge, refrigerator, use by, how long",
    words="keep, last, shelf life, conserve, conserved, goes off, in the cold, how long, good for, fridge, "
    "refrigerator, chilled, cold, fresh, opened, stay good, spoil, kept",
    method=["Usual for {kind}: {kind.low} to {kind.high} days. {kind.note}"],
    cautions=[said("keeping")],
    examples=[("how long does fresh orange juice last?", "2 day")],
    source=PRACTICE,
)

BATCH_SIZE = Calculator(
    "batch_that_keeps",
    "The largest batch that is sold before its time",
    var("batch", "milliliter", "batch, stock, make, biggest batch, prepare, maximum, have, at once, in one go, "
        "press at once, most i should, "
        "most we should, most to make, press, squeeze", things="any"),
    var("rate", "liter / day", SOLD + ", daily sales, sell per day", role="per"),
    var("life", "day", LIFE + ", days until empty, days till empty, "
        "days til empty, "
        "how many days, last, keep", role="need"),
    equations=["batch = rate * life"],
    only=KEPT + ", waste, wasted, day, night, throw, without waste",
    words="biggest batch, largest batch, maximum, prepare, waste nothing, no waste, without waste, "
    "without throwing, nothing wasted, none is thrown away, no waste, for no waste, used up, used up exactly, "
    "sell daily, "
    "until empty, till empty, til empty, run out, stock, wasted",
    asked="batch, life, rate",
    method=["Make {batch} and no more: at {rate} it is gone in {life}."],
    cautions=[said("keeping")],
    examples=[
        ("the shrub keeps six days and we pour 1.4 l of it every night, biggest batch that is not wasted?", "8.4 liter")
    ],
    source="batch = daily use x days",
)

SERVES_THAT_KEEP = Calculator(
    "serves_that_keep",
    "The most serves to make before their time is over",
    var("serves", "count", "serve, drink, bottle, portion, make, batch, stock, most i should bottle, "
        "most i should make", whole="down"),
    var("rate", "count / day", SOLD, role="per"),
    var("life", "day", LIFE, role="need"),
    equations=["serves = rate * life"],
    only=KEPT + ", waste, wasted",
    words="biggest batch, largest batch, waste nothing, no waste, drinks a day, until empty, run out, stock, "
    "most i should, most we should, most to, bottled, at most",
    asked="serves, life, rate",
    cautions=[said("keeping")],
    examples=[("we sell 24 bottled drinks a day, they keep 5 days: how many drinks can I make at most?", "120 count")],
    source="serves = daily use x days",
)

WASTE = Calculator(
    "waste",
    "What is thrown away of a batch",
    var("batch", "milliliter", "batch, made, have, there are, total, mountain, keg, had, tub", things="any"),
    var("rate", "liter / day", SOLD + ", each day, go each day", role="per"),
    var("life", "day", LIFE, role="need"),
    var("sold", "milliliter", "sold in time, used in time", shy=True),
    var("surplus", "milliliter", "surplus, too much", bounds=(None, None), role="lost", shy=True),
    var("waste", "milliliter", "waste, wasted, thrown away, throw away, throw, lose, we lose, do we lose, "
        "dump, dumped, tip, bin, binned, "
        "down the drain, drain, expected waste, lost, pouring away, discard, discarded, to discard, "
        "down the sink, sink"),
    equations=["sold = rate * life", "surplus = batch - sold", "waste = max(surplus, none)"],
    constants={"none": (0, "milliliter")},
    limits=[limit("surplus >= 0 * batch", "caution", "All of it is sold before its time: nothing is thrown away.")],
    words="waste, wasted, drain, bin, thrown away, down the drain, end up",
    only=GONE,
    asked="waste, batch, rate, life",
    method=["{batch} is there; in {life} {sold} can be sold."],
    cautions=[said("keeping")],
    examples=[
        (
            "there are 22 l of tea punch, we sell 3.2 l a day, it keeps 5 days, how many litres end up down the drain?",
            "6 liter",
        )
    ],
    source="waste = batch - daily use x days",
)

BY_SERVES = Calculator(
    "batch_for_daily_serves",
    "The largest batch that is sold before its time, by the serves of a day",
    var("serves", "count", PEOPLE),
    var("daily", "count / day", SOLD, role="per"),
    var("each", "milliliter", "in each, each, per drink, serve, pour", role="each", bounds=(0, 2000)),
    var("batch", "milliliter", "batch, biggest batch, largest batch, how big a batch, make"),
    var("life", "day", LIFE, role="need"),
    equations=["serves = daily * a_day", "batch = daily * each * life"],
    constants={"a_day": (1, "day")},
    only=KEPT,
    also="each, per drink, in each",
    words="biggest batch, largest batch, without waste, no waste, nothing wasted, how big a batch, keeps, in each",
    asked="batch, life, each, daily",
    method=["{serves} a day of {each} for {life} are {batch}."],
    cautions=[said("keeping")],
    examples=[("we sell 60 drinks a day with 40 ml of it in each and it keeps 5 days: how big a batch without waste?",
               "12 liter")],
    source="batch = serves a day x measure x days",
)

WASTE_BY_SERVES = Calculator(
    "waste_by_serves",
    "What is thrown away of a batch that is sold by the serve",
    include(WASTE),
    var("rate", "liter / day", "litres a day", hidden=True),
    var("serves", "count", PEOPLE),
    var("daily", "count / day", SOLD, role="per"),
    var("each", "milliliter", "in each, each, per drink, serve, pour", role="each", bounds=(0, 2000)),
    equations=["serves = daily * a_day", "rate = daily * each"],
    constants={"a_day": (1, "day")},
    only=GONE,
    also="each, per drink, in each",
    words="waste, wasted, thrown away, each",
    asked="waste",
    method=["{batch} is there; in {life} {sold} can be sold."],
    cautions=[said("keeping")],
    examples=[("a 20 l keg keeps 4 days, we sell 30 drinks a day, 120 ml each: how many litres are wasted?",
        "5.6 liter")],
)

WASTE_OF_SERVES = Calculator(
    "serves_wasted",
    "Bottles or serves that are past their time",
    var("stock", "count", "bottle, serve, portion, stock, there are, on the shelf, have"),
    var("rate", "count / day", SOLD + ", go each day, each day", role="per"),
    var("life", "day", LIFE, role="need"),
    var("sold", "count", "sold in time", hidden=True),
    var("surplus", "count", "surplus", bounds=(None, None), hidden=True),
    var("waste", "count", "waste, wasted, thrown away, past it, past their date, left over, spoiled, bottles wasted, "
        "end up in the bin, in the bin, bin, binned, throw, throw away, dump, lose, lost"),
    equations=["sold = rate * life", "surplus = stock - sold", "waste = max(surplus, none)"],
    constants={"none": (0, "count")},
    only=GONE + ", past their date",
    words="wasted, past it, thrown away, bottles, keep, a day, each day",
    asked="waste, stock",
    method=["{stock} are there; in {life} {sold} are sold."],
    cautions=[said("keeping")],
    examples=[("there are 50 bottles, we sell 6 a day and they keep 7 days: how many are thrown away?", "8 count")],
    source="waste = stock - daily use x days",
)

LEADS = [
    {"id": "peel_sugar", "words": "peel sugar, oleo, oleo saccharum, peel syrup", "hours": "48", "source": PRACTICE},
    {"id": "milk_punch", "words": "milk punch, clarified punch, clear punch", "hours": "12", "source": PRACTICE},
    {"id": "fat_wash", "words": "fat wash, fat washing, butter wash", "hours": "24", "source": PRACTICE},
    {"id": "hydration", "words": "methylcellulose, foam base, foam", "hours": "12", "source": PRACTICE},
]

START = Calculator(
    "when_to_start",
    "When to begin, to be ready in time",
    choice("job", LEADS, fills={"takes": "hours"}, words="what is made"),
    var("until", "hour", "ready in, until, time until, needed in, service in, open in, ready, serve it, can i serve, "
        "can we serve, from now, be ready", role="to"),
    var("takes", "hour", "takes, take, steep, needs, wants, preparation, freeze, rest, infuse, infusion, "
        "chill, sit, stand", role="need"),
    var("start", "hour", "start in, begin in, start, begin, latest start, at the latest, get to it, "
        "get round to it", bounds=(None, None)),
    equations=["until = takes + start"],
    limits=[limit("takes <= until", "refuse", "It takes {takes} and is needed in {until}: it is too late to begin.")],
    only="start, begin, ready, ready by, in time, at the latest, get to it, get round to it, can i serve, serve it",
    words="when to start, start, begin, ready by, in time",
    asked="start, until, takes",
    method=["Begin no later than {start} from now."],
    examples=[("it steeps 48 h and must be ready in 60 h, in how many hours do I start at the latest?", "12 hour")],
    source="start = ready - time taken",
)

CALCULATORS = (DAYS_LEFT, SHELF_LIFE, BATCH_SIZE, SERVES_THAT_KEEP, WASTE, BY_SERVES, WASTE_BY_SERVES,
    WASTE_OF_SERVES, START)
