"""Serves, bottles and batches without a spec: pours in a keg, bottles to buy, one line for more people.

Serves that a supply allows are rounded down, bottles, cases and batches to get up.
"""

from __future__ import annotations

from stillroom import Calculator, include, limit, var

PEOPLE = "serve, serving, drink, cocktail, portion, people, person, guest, pax, glass, head, cover"

POURS = Calculator(
    "pours",
    "Serves from a keg, a bottle or what is left",
    var(
        "supply",
        "milliliter",
        "keg, bottle, vessel, left, have, tank, supply, jug, batch, batched, cask, barrel, dispenser, urn, cooler, "
        "bowl, do i make, went together",
        things="any",
        role="have",
    ),
    var("each", "milliliter", "pour, serve, serving, measure, glass, a drink, per drink, each, serve size, shot, "
        "cans, tin, cup, cans of, cups of, tins of, glasses of, shots of, serves of, pours of, each be, can each be, "
        "of what size", role="each"),
    var("serves", "count", PEOPLE + ", pour, full pour, complete pour, shot, measure, cans, tin, cup", whole="down"),
    equations=["supply = serves * each"],
    limits=[limit("supply <= large", "doubt", "{supply} is more than a bar pours.")],
    constants={"large": (2000, "liter")},
    words="pour, pours, shots, measures, keg, serves, how many drinks, full, complete, out of, left, drink, glass, "
        "no loss, no foam, foam loss, everybody gets, for each drink, stretch, stretch to, how many can i, "
        "how many can we, how many do i get, how many do we get, how many will i get",
    asked="serves, supply, each",
    method=["{supply} gives {serves} whole serves of {each}."],
    examples=[
        ("how many complete 125 ml pours in a 19 L keg?", "152 count"),
        ("640 ml of lime left, 22 ml a drink, how many drinks?", "29 count"),
    ],
    source="serves = supply / each, rounded down",
)

POURS_LOST = Calculator(
    "pours_with_loss",
    "Serves from a keg of which some is lost",
    var(
        "supply",
        "milliliter",
        "keg, bottle, vessel, have, tank, supply, cans, cask, make up, make-up volume, to make, gross",
        things="any",
        role="have",
    ),
    var(
        "lost",
        "percent",
        "lost, loss, lose, foam, foams away, waste, in the lines, spill, stick, stays in, left in, never leaves, "
        "leaves the lines, missing",
        bounds=(0, 100),
        role="lost",
    ),
    var("stays", "milliliter", "stays, stays in the lines, stays in, lost, left in the lines, left in, foam, waste",
        role="lost"),
    var("usable", "milliliter", "usable, what is left, pourable, deliver, after loss, net, can we pour, can i pour, "
        "be poured"),
    var("each", "milliliter", "pour, serve, serving, measure, glass, a drink, per drink, each, serve size, shot, "
        "cans, tin, cup, cans of, cups of, tins of, glasses of, shots of, serves of, pours of", role="each"),
    var("serves", "count", PEOPLE + ", pour, full pour, complete pour, shot, measure, cans, tin, cup", whole="down"),
    equations=["usable = supply * (1 - lost)", "usable = serves * each", "usable = supply - stays"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left to pour."),
            limit("usable <= supply", "refuse", "More than the {supply} that there is cannot be poured.")],
    words="pour, pours, keg, serves, lost, loss, foam, how many drinks, full, tap",
    only="lost, loss, lose, foam, foams, foams away, waste, spill, stick, sticks, stays in the lines, "
        "stays in the keg, stay in the lines, left in the lines",
    asked="serves, supply, usable",
    method=["Of {supply} {usable} can be poured: {serves} serves of {each}."],
    examples=[("10 litre keg, 180 ml serve, 6% foams away, how many drinks?", "52 count")],
    source="serves = supply x (1 - lost) / each, rounded down",
)

TO_MAKE = Calculator(
    "make_for_loss",
    "How much to make when some of it is lost",
    var("make", "milliliter", "make, make up, make-up volume, to make, made, prepare, produce, start with, gross, "
        "put in, brew, volume to make, cook, boil, start", things="any"),
    var("lost", "percent", "lost, loss, lose, losing, waste, spill, evaporates, evaporating, evaporate, stays behind, "
        "strained out, missing, goes missing, boils away, boils off",
        bounds=(0, 100), role="lost"),
    var("needed", "milliliter", "need, needed, deliver, at the end, end up, end up with, final, net, want, left over, "
        "after the loss, come out, do we get, do i get, we get, remain, remains, remaining, keep, left of it, is left",
        things="any", role="need"),
    var("gone", "milliliter", "volume lost, lost volume, how much is lost, goes missing, missing, "
        "disappears, gone, is lost"),
    equations=["needed = make * (1 - lost)", "gone = make - needed"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left of it.")],
    words="lost, loss, lose, losing, make, need, deliver, waste, strain, allowance, make up",
    only="lost, loss, lose, loses, losing, waste, wasted, evaporates, evaporating, evaporate, spill, goes missing, "
        "missing, boils away, boils off, disappears",
    asked="make, needed, gone",
    method=["Make {make}: {lost} of it is lost and {needed} is left."],
    examples=[("we lose 8 % in straining and need 4.6 l, how much to make?", "5 liter")],
    source="left = made x (1 - lost)",
)

PORTIONS = Calculator(
    "portions_by_weight",
    "Portions from a weight",
    var("supply", "gram", "have, left, supply, bag, tub, jar", things="any", role="have", state="dry"),
    var("each", "gram", "portion, per drink, a drink, each, serve", role="each", state="dry"),
    var("serves", "count", PEOPLE, whole="down"),
    equations=["supply = serves * each"],
    limits=[limit("each <= most", "doubt", "{each} is a large portion.")],
    constants={"most": (400, "gram")},
    words="portion, how many drinks, serves, left, by weight",
    asked="serves, supply, each",
    method=["{supply} gives {serves} portions of {each}."],
    examples=[("900 g of sugar left, 12 g a drink, how many drinks?", "75 count")],
    source="serves = supply / each, rounded down",
)

BOTTLES = Calculator(
    "bottles_to_buy",
    "Bottles to buy for a service",
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var(
        "each",
        "milliliter",
        "measure, pour, in each, a drink, per drink, apiece, shot",
        things="spirit,wine,liqueur",
        role="each",
        bounds=(0, 2000),
    ),
    var("need", "milliliter", "total, needed, in all, altogether", role="need"),
    var("bottle", "milliliter", "bottle, bottle size, size, cans, carton", role="per"),
    var("bottles", "count", "bottle, cans, carton, whole bottle", whole="up"),
    equations=["need = serves * each", "need = bottles * bottle"],
    limits=[limit("each <= bottle", "doubt", "{each} in one drink is more than a bottle of {bottle}."),
            limit("each >= least", "doubt", "{each} in one drink is less than a drop or two.")],
    constants={"least": (0.5, "milliliter")},
    also=PEOPLE + ", each, apiece, a drink, per drink, buy, order, need, needed, fetch, bring, cellar, pours, "
        "measures, shots",
    words="bottle, bottles, buy, order, cellar, fetch, stock, bring up, pours, measures",
    asked="bottles, serves, need",
    method=["{serves} at {each} is {need}: {bottles} bottles of {bottle}."],
    examples=[("85 drinks with 4.5 cl vodka in each, 70 cl bottles to fetch, whole ones?", "6 count")],
    source="bottles = serves x each / bottle, rounded up",
)

LAST_BOTTLE = Calculator(
    "last_bottle",
    "Bottles to open for a service, and what stays in the last one",
    include(BOTTLES),
    var("stays", "milliliter", "stays, stays in the last one, left in the last one, last one, last bottle, left over, "
        "still in, still in the bottle, left in the bottle, bottle open, open bottle, opened bottle, open one, "
        "started bottle"),
    steps=["stays := ceil(bottles) * bottle - need"],
    only="last one, last bottle, open, opened, still in the bottle, left in the bottle, bottle open, open bottle, "
        "opened bottle, bottle that's open, open one, bottle that is open, started bottle",
    words="last one, last bottle, bottles, open, open bottle, bottle that's open, still in, stays in the last one, "
        "left in the last one",
    asked="bottles, stays",
    method=["{serves} at {each} is {need}: {bottles} bottles of {bottle}; {stays} is left in the last."],
    examples=[("40 drinks with 30 ml gin in each, 70 cl bottles: how much stays in the last bottle?",
        "200 milliliter")],
)

WITH_LOSS = Calculator(
    "bottles_with_loss",
    "Bottles to buy for a service when some of it is lost",
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("each", "milliliter", "measure, pour, in each, a drink, per drink, apiece, shot, each",
        things="spirit,wine,liqueur", role="each", bounds=(0, 2000)),
    var("poured", "milliliter", "in the glasses", hidden=True),
    var("need", "milliliter", "total, needed, in all, altogether"),
    var("bottle", "milliliter", "bottle, bottle size, size, cans, carton, comes in", role="per"),
    var("lost", "percent", "lost, loss, spill, spilled, spillage, waste, wasted", bounds=(0, 100), role="lost"),
    var("bottles", "count", "bottle, cans, carton, whole bottle", whole="up"),
    equations=["poured = serves * each", "poured = need * (1 - lost)", "need = bottles * bottle"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left to pour.")],
    only="lost, loss, lose, waste, wasted, spill, spilled, spillage",
    words="bottle, bottles, buy, order, lost, loss, spill, spillage",
    asked="bottles, need, serves",
    method=["{serves} at {each} with {lost} lost is {need}: {bottles} bottles of {bottle}."],
    examples=[("90 drinks with 40 ml gin in each, 5 % is spilled, 700 ml bottles: how many bottles to order?",
        "6 count")],
    source="bottles = serves x each / (1 - lost) / bottle, rounded up",
)

FOR_GUESTS = Calculator(
    "bottles_for_guests",
    "Bottles and volume for guests who take several drinks each",
    var("guests", "count", "guest, people, person, pax, head, cover, party", whole="down"),
    var("drinks_each", "count", "drink, cocktail, serve, highball, glass, drinks each, drinks a head, "
        "drinks per guest, apiece, a head", role="each"),
    var("serves", "count", "drinks in all, serves in all", whole="up", shy=True),
    var("each", "milliliter", "measure, pour, drink, every drink, one drink, glass, in the glass",
        things="spirit,wine,liqueur", role="each", bounds=(0, 2000)),
    var("need", "milliliter", "total, needed, in all, altogether, batch, total batch"),
    var("bottle", "milliliter", "bottle, bottle size, size, cans, carton", role="per"),
    var("bottles", "count", "bottle, cans, carton, whole bottle", whole="up"),
    equations=["serves = guests * drinks_each", "need = serves * each", "need = bottles * bottle"],
    only="guest, people, person, pax, head, cover, party",
    also="each, per guest, per head, a head, apiece, per person, a person, everybody, every guest, every person, "
        "every one, a guest",
    words="guests, drinks each, per head, party",
    asked="bottles, need, serves",
    method=["{guests} with {drinks_each} each take {serves} drinks of {each}: {need}."],
    examples=[("50 guests take two drinks each with 40 ml of rum in every drink: how many litres of rum?", "4 liter")],
    source="need = guests x drinks each x measure",
)

LEFT = Calculator(
    "left_after_service",
    "What is left when so many have been poured",
    var("start", "milliliter", "start, started, started with, start with, at the start, began, began with, full, "
        "there were, had, made, batch, keg, opened, opened with, opened the shift",
        things="any", role="from"),
    var("bottles", "count", "bottle, keg, cans, carton"),
    var("bottle", "milliliter", "bottle, keg, cans, carton, bottle size", role="each"),
    var("serves", "count", PEOPLE + ", pour, sold, poured, rang up"),
    var("each", "milliliter", "measure, pour, serve, serving, drink, glass, exact volume", role="each",
        bounds=(0, 2000)),
    var("used", "milliliter", "poured away", hidden=True),
    var("left", "milliliter", "left, left in, left over, is left, was left, remain, remaining, remains, rest, "
        "still there, still be there, should be there, be there, stays, what's left, what is left, are left, "
        "have left, be left, ml left, l left, litre left, cl left, oz left", things="any",
        role="have"),
    equations=["start = bottles * bottle", "used = serves * each", "start = used + left"],
    limits=[limit("left >= 0", "refuse", "More was poured than there was.")],
    only="left, left in, left over, was left, is left, remain, remaining, remains, still there, still be there, "
        "be there, is there, what's left, what is left, is left, are left, have left, be left, ml left, l left, "
        "litre left, cl left, oz left",
    also="till, opened, opened with, start, at the start, started, began, sold, rang up, poured, gave, gone, had, were",
    words="left, left over, remaining, stocktake, stock take, sold, started, began, start, began with, gave, rang up, "
        "poured, till says, till",
    asked="left, start, each, serves",
    method=["Of {start} {serves} at {each} were poured: {left} is left."],
    examples=[
        ("we began with a 20 l keg and sold 120 glasses of 150 ml: how much is left?", "2 liter"),
        ("at the start there were 5 l, 40 glasses were sold and 200 ml is left: how big was each glass in ml?",
         "120 milliliter"),
    ],
    source="left = start - serves x each",
)

FILLED = Calculator(
    "bottles_filled",
    "Full bottles from so much liquid",
    var("supply", "milliliter", "have, batch, left, keg, tank, there is", things="any", role="have"),
    var("bottle", "milliliter", "bottle, size, bottle size, jar, flask, bag, in each, each bottle, per bottle, "
        "each one",
        role="into"),
    var("bottles", "count", "bottle, full bottle, full one, jar, flask, bag", whole="down"),
    equations=["supply = bottles * bottle"],
    only="fill, fills, filled, full ones, full bottles, bottle up, bottling, bottle off, split, divided, divide, "
        "split over, shared out",
    words="fill, full bottles, bottling, bottle off",
    asked="bottles, supply, bottle",
    method=["{supply} fills {bottles} bottles of {bottle}."],
    examples=[("how many 50 cl bottles does 8.3 litres of shrub fill?", "16 count")],
    source="bottles = supply / bottle, rounded down",
)

SPARE = Calculator(
    "serves_with_spare",
    "How much for so many serves, with some to spare",
    var("serves", "count", PEOPLE, role="to"),
    var("each", "milliliter", "measure, pour, in each, a drink, per drink, apiece, each, drink of, drinks of, "
        "glass of, serve of, cup of, cups of, portion of", things="any", role="each"),
    var("spare", "percent", "spare, extra, on top, for safety, safety, margin, buffer, headroom", role="add"),
    var("need", "milliliter", "total, needed, need, in all, altogether", things="any", role="need"),
    equations=["need = serves * each * (1 + spare)"],
    only="spare, extra, on top, safety, buffer, headroom, more to be safe, contingency, more than that, "
        "per cent more, percent more",
    words="spare, extra, safety, buffer, for safety",
    asked="need, serves",
    method=["{serves} at {each} and {spare} over is {need}."],
    examples=[("80 serves of 45 ml each plus 10 % spare: how many litres?", "3.96 liter")],
    source="need = serves x each x (1 + spare)",
)

CASES = Calculator(
    "cases_to_buy",
    "Cases to buy for so many bottles",
    var("serves", "count", PEOPLE),
    var("each", "count", "in each, each, one each, per drink, a drink, per guest, a guest", role="each", default=1,
        note="one for each"),
    var("bottles", "count", "bottle, cans, piece", whole="up"),
    var("in_case", "count", "in a case, per case, to a case, case of, a case holds", role="per"),
    var("cases", "count", "case, box, crate", whole="up"),
    equations=["bottles = cases * in_case", "bottles = serves * each"],
    words="case, cases, crate, box, order",
    only="case, crate, box",
    asked="cases, bottles",
    method=["{cases} cases of {in_case}."],
    examples=[("40 bottles, 12 to a case, how many cases?", "4 count")],
    source="cases = bottles / bottles in one, rounded up",
)


def one_line(name: str, unit: str, state: str, example: tuple[str, str]) -> Calculator:
    """A single ingredient from so many people to others, measured in ``unit``."""
    return Calculator(
        name,
        "One ingredient for more or fewer",
        var("recipe", unit, "amount, recipe, feeds, serves, recipe says, recipe needs, recipe takes, receipt needs",
            things="any", role="from", state=state),
        var("recipe_serves", "count", "feeds, serves, recipe serves, punch serves, recipe for, for " + PEOPLE,
            role="from"),
        var("needed", unit, "needed, need, becomes, for all, have only, only have, only got, is left", role="to",
            state=state),
        var("needed_serves", "count", PEOPLE + ", of us", role="need", whole="down"),
        equations=["needed * recipe_serves = recipe * needed_serves"],
        words="scale, recipe, receipt, serves, feeds, people, guests, pax, instead of, tonight, punch takes, "
            "bowl takes, "
            "recipe takes, recipe needs",
        asked="needed, needed_serves, recipe",
        method=["{recipe} for {recipe_serves} is {needed} for {needed_serves}."],
        examples=[example],
        source="needed = amount of the recipe x serves / serves of the recipe",
    )


BATCHES = Calculator(
    "batches",
    "Batches to make for a service",
    var("made", "count", "batch, batches, batch gave, batch made, batch yielded, batch did, went through, last night, "
        "used", role="from", default=1, note="of one batch"),
    var("gave", "count", "serve, gave, made, makes, yielded, a batch gives, batch does, batch makes, batch gives, "
        "from a batch, does", role="from"),
    var("serves", "count", "tonight, booked, booking, guest, people, person, cover, expected, say, ordered, "
        "needed", role="to"),
    var("batches", "count", "batch, whole batch, make", role="need", whole="up"),
    equations=["batches * gave = made * serves"],
    limits=[limit("gave >= made", "doubt", "{made} batches for {gave} serves: a batch is for several."),
            limit("gave >= several", "doubt", "{gave} serves of a batch: a batch is for several.")],
    constants={"several": (2, "count")},
    words="batch, batches, whole batches, tonight, last night, bookings, prep",
    asked="batches, serves",
    method=["{batches} batches for {serves}."],
    examples=[("last night 3 batches made 60 serves, tonight 145 are booked: how many whole batches?", "8 count")],
    source="batches = serves / serves of a batch, rounded up",
)

CALCULATORS = (
    POURS,
    POURS_LOST,
    TO_MAKE,
    PORTIONS,
    BOTTLES,
    LAST_BOTTLE,
    WITH_LOSS,
    FOR_GUESTS,
    LEFT,
    FILLED,
    SPARE,
    CASES,
    one_line("scale_volume", "milliliter", "liquid", ("300 ml of rum feeds 12, rum for 30 people?", "750 milliliter")),
    one_line("scale_weight", "gram", "dry", ("200 g of sugar feeds 8, sugar for 20 people?", "500 gram")),
    BATCHES,
)
