"""What a drink costs and what it should fetch: pours, pour cost, tax, profit, garnish, batches.

Money is a number in whatever currency the question used; prices are before tax unless they are
said to hold it.  Pour cost is the cost of the ingredients over the price before tax.
"""

from __future__ import annotations

from stillroom import Calculator, Lines, include, limit, var

NET = "the price is before tax; pour cost is cost over price before tax"
TRADE = "common practice, no source"
MONEY = "$, €, £, euro, dollar, pound, cent, buck, quid, money"
PER_ONE = (
    "per bottle, a bottle, per can, a can, per tin, per jar, per charger, a charger, per cartridge, per pod, a pod, "
    "per fruit, per lime, a lime, per lemon, a lemon, per orange, an orange, per case, a case, per box, a box"
)

POUR = Calculator(
    "cost_of_pour",
    "Cost of a pour from a bottle",
    var("bottle", "milliliter", "bottle, bottle size, size, cans, carton", role="from", things="spirit,wine,liqueur"),
    var("bottle_price", "currency", "bottle price, bottle costs, bottle, paid, invoice, i paid, price of the bottle, "
        "highest price, we pay, i pay, set us back, sets us back, set me back, most i can pay, price for a bottle, "
        "dearest bottle, pay for", role="from"),
    var("pour", "milliliter", "pour, measure, shot, serve, glass, put, use, we use, of it, goes in",
        role="each"),
    var("cost", "currency", "cost, cost of a pour, pour cost me, pour costs, cost per pour, run me, running me, "
        "each pour run me, costing us, go over, not exceed, ceiling, pour worth, worth"),
    equations=["cost * bottle = bottle_price * pour"],
    limits=[limit("pour <= bottle", "doubt", "A pour of {pour} is more than a bottle of {bottle} holds.")],
    only="cost, costs, costing, price, pour, run me, running me, euro, dollar, pound, $, €, £, set us back, "
        "sets us back, set me back, sets me back",
    words="set us back, sets us back, set me back, sets me back, pour, bottle, cost, cost of a pour, pour costs, "
        "run me, running me, costing",
    asked="cost, bottle_price, pour",
    method=["{pour} of a {bottle} bottle at {bottle_price} costs {cost}."],
    examples=[("bottle 700 ml at 24.50, I pour 50 ml, what does the pour cost me?", "1.75 currency")],
    source="cost = price x pour / bottle",
)

BY_WEIGHT = Calculator(
    "cost_of_weight",
    "Cost of a weight of something, from the price of what is bought",
    var("price", "currency", "price, paid, costs, cost for, for one kilo, for a kilo, for a pound, stands at, bag, "
        "sack, box, kilo, pound", role="from"),
    var("bought", "gram", "bag, sack, tub, box, bought, pack, kilo, one kilo, a kilo, pound, a pound", things="any",
        role="from",
        state="dry"),
    var("rate", "currency / kilogram", "per kilo, a kilo, per kg, price, per pound, a pound", role="per"),
    var("used", "gram", "use, i use, we use, i take, we take, drink takes, used, takes, batch takes, drink takes, "
        "goes in, per drink, a drink, per batch, need, i need",
        things="any", state="dry"),
    var("cost", "currency", "cost, cost per drink, cost of it, cost per batch, it cost, how much money, spend, worth, "
        "cost me",
        role="to"),
    equations=["price = rate * bought", "cost = rate * used"],
    only="cost, costs, price, money, spend, paid, $, €, £, euro, dollar",
    words="cost, price, per kilo, a kilo, kilo, ingredient, money, spend",
    asked="cost, price, rate",
    method=["{used} cost {cost}."],
    examples=[
        ("a kilo of sugar costs 1.50 and I use 300 g, what does it cost?", "0.45 currency"),
        ("mint at 14.00 per kg, 5 g per drink, mint cost per drink?", "0.07 currency"),
    ],
    source="cost = price x used / bought",
)

JUICE_COST = Calculator(
    "cost_of_juice",
    "Cost of juice from the price of a fruit",
    var("price", "currency", "price, each, a piece, apiece, per fruit, a fruit, a lime, a lemon, an orange, "
        "a grapefruit, per lime, per lemon, per orange, per grapefruit, pay per lime, pay per lemon, pay per orange, "
        "pay per fruit, pay for one, lime costs, lemon costs, orange costs, grapefruit costs, lime cost, lemon cost, "
        "orange cost, grapefruit cost, fruit cost", role="each"),
    var("each", "milliliter", "juice per fruit, gives, give, yields, out of each, from one, per fruit", role="each"),
    var("juice", "milliliter", "litre of juice, juice in one drink, use, takes, per drink, i use, we use",
        things="juice", role="need"),
    var("cost", "currency", "cost, costing us, juice cost, cost of the juice, cost me, pay for, pay"),
    equations=["cost * each = price * juice"],
    only="cost, costs, costing, price, cents, $, €, £, euro, dollar",
    also="juice, gives, give, yields, out of each, from one, per fruit",
    words="cost of juice, juice cost, lime, lemon, orange, fruit, juice",
    asked="cost, price",
    method=["At {price} a fruit and {each} of juice each, {juice} cost {cost}."],
    cautions=["Fruit varies with season, ripeness and size: press a few and measure before you cost a drink."],
    examples=[("limes are 0.25 each and give 25 ml each, what does a litre of lime juice cost?", "10 currency")],
    source="cost = price of a fruit x juice / juice of a fruit",
)

COUNTED = Calculator(
    "cost_of_pieces",
    "Cost of so many pieces at a price each",
    var("pieces", "count", "piece, charger, cartridge, pod, fruit, bottle, case, box, carton, can, tin, jar, get, "
        "buy, afford, how many", things="fruit", whole="down"),
    var("price", "currency", "each, apiece, a piece, per piece, price each, one costs, " + PER_ONE, role="each"),
    var("cost", "currency", "cost, in all, total, altogether, spend, bill, together, paid, pay, budget, have, got",
        role="have"),
    equations=["cost = pieces * price"],
    only="apiece, a piece, per piece, piece, charger, cartridge, pod, fruit, lime, lemon, orange, grapefruit, bottle, "
        "case, box, carton, can, tin, jar, " + PER_ONE,
    also="cost, costs, spend, spent, bill, pay, paid, price, budget, afford, invoice, @, " + MONEY,
    words="cost, total, spend, bill, pieces, apiece, each, charger, cartridge, pod",
    asked="cost, pieces, price",
    method=["{pieces} at {price} each cost {cost}."],
    examples=[("18 vanilla pods at 2.50 apiece, what do they cost in all?", "45 currency")],
    source="cost = pieces x price",
)

POUR_LOST = Calculator(
    "cost_of_pour_with_loss",
    "Cost of a pour when some of the bottle is lost",
    include(POUR),
    var("lost", "percent", "lost, loss, spill, spilled, spillage, waste, wasted, wastage, "
        "evaporates", bounds=(0, 100), role="lost"),
    var("real_cost", "currency", "true cost, real cost, truly costs, really costs, truly, cost with loss, "
        "loss included"),
    equations=["real_cost * (1 - lost) = cost"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is poured.")],
    only="lost, loss, lose, spill, spillage, spilled, waste, wastage",
    words="loss, spill, spillage, waste, truly, really",
    asked="real_cost, cost",
    method=["{pour} costs {cost}; with {lost} lost, {real_cost}."],
    examples=[("bottle 1000 ml at 38.00, 5 % is spilled: true cost of a 50 ml pour?", "2 currency")],
)

POUR_COST = Calculator(
    "pour_cost",
    "Pour cost, price and profit of a drink",
    var(
        "cost",
        "currency",
        "cost, ingredient, ingredients, ingredient cost, makes, to make, spend, spend on ingredients, costs me, drink",
    ),
    var(
        "price",
        "currency",
        "price, net price, price before tax, sell, sell it, sold at, charge, pre tax, menu price pre tax, menu, "
        "drink, ex vat, ex tax, before vat, without vat, plus vat, excluding vat, net of vat, net of tax, net, "
        "without tax, before tax, excluding tax, goes for, go for",
    ),
    var("pour_cost", "percent", "pour cost, target pour cost, cost percent, pour cost percent, pc, "
        "target", bounds=(0, 100),
        role="to"),
    var("profit", "currency", "profit, gross profit, gp, make on it, make on each, make on one, make a drink, "
        "we make on, i make on, do we make, do i make, earn, keep, clear on each, left for us", bounds=(None, None)),
    var("margin", "percent", "margin, profit margin, gross margin, gp percent", bounds=(None, 100)),
    equations=["cost = pour_cost * price", "profit = price - cost", "margin = 1 - pour_cost"],
    limits=[limit("cost <= price", "caution", "The ingredients cost more than the price: every one sold is a loss.")],
    words="pour cost, price, charge, sell, target, ingredient, margin, profit, taxes not in it, tax not included, "
        "tax aside, before tax, without tax, excluding tax, pre tax, ex vat, ex tax, before vat, without vat, "
        "plus vat, excluding vat",
    asked="price, pour_cost, cost, profit",
    method=["{cost} of ingredients at a price of {price} before tax is a pour cost of {pour_cost}."],
    conventions=[NET],
    examples=[
        ("ingredients come to $2.35 and the owner wants 20% pour cost, price before tax?", "11.75 currency"),
        ("ingredients 1.98, sold at 11.00 net, pour cost in percent?", "18 percent"),
    ],
    source=TRADE,
)

TAX = Calculator(
    "tax",
    "A price with and without tax",
    var("price", "currency", "net, net price, price before tax, before tax, without tax, ex tax, excluding tax"),
    var("tax", "percent", "tax, vat, sales tax, gst, service charge, % service, percent service, gratuity"),
    var(
        "menu_price", "currency", "menu price, price with tax, including tax, gross, gross price, on the menu, "
        "inc tax, with vat, with tax, vat in it, tax in it, vat included, tax included, menu say, menu show, "
        "menu read, guest pays, guests pay"
    ),
    var("tax_amount", "currency", "amount of tax, tax in it, vat amount, tax amount, is the vat, is the tax, is vat, "
        "is tax, amount of vat"),
    equations=["menu_price = price * (1 + tax)", "tax_amount = menu_price - price"],
    words="tax, vat, including, excluding, net, gross, menu",
    only="tax, vat, gst, net, gross, including, excluding, service charge, % service, percent service, gratuity",
    asked="menu_price, price, tax_amount, tax",
    method=["{price} before tax and {tax} tax make {menu_price} on the menu."],
    examples=[("net 7.50 plus 19 % VAT makes which price on the menu?", "8.925 currency")],
    source="price with tax = price x (1 + rate)",
)

TAXED = Calculator(
    "pour_cost_with_tax",
    "Pour cost of a drink whose price holds tax",
    include(POUR_COST),
    include(TAX),
    var("price", "currency", "net price, price before tax, before tax, without tax"),
    var("profit", "currency", "profit, gross profit", bounds=(None, None)),
    only="tax, vat, gst, gross, including",
    words="including tax, with tax, menu price including, pour cost, vat, tax included",
    asked="pour_cost, menu_price, cost, price",
    method=["Take the tax out first: {menu_price} with {tax} tax is {price}.", "Then {cost} of it is {pour_cost}."],
    examples=[("menu price 13.20 including 20 % VAT, the ingredients cost 2.42, pour cost?", "22 percent")],
)

BOTTLE_PRICE = Calculator(
    "bottle_for_target",
    "Dearest bottle that a pour cost allows",
    include(POUR),
    include(POUR_COST),
    var(
        "bottle_price",
        "currency",
        "price of a bottle, price for a bottle, highest price, acceptable price, bottle price, bottle costs, "
        "bottle at, paid",
    ),
    var("price", "currency", "net price, price before tax, menu price, drink price, drink, sold at, sell, sells, net, "
        "charge, goes for"),
    var("cost", "currency", "cost of the pour, cost"),
    var("profit", "currency", "profit, gross profit", bounds=(None, None), shy=True),
    only="bottle, cans, keg, carton, case",
    words="highest price for a bottle, dearest bottle, acceptable bottle price, ceiling, pour and nothing else",
    asked="bottle_price, price, pour_cost, pour",
    method=["At {price} and {pour_cost} the pour may cost {cost}, so the bottle {bottle_price}."],
    examples=[
        (
            "pour cost ceiling 18 %, net price 9.00, pour 40 ml, highest price of a 700 ml bottle?",
            "28.35 currency",
        ),
    ],
)

LINES = Lines(
    sums={"cost": "amount * price / size"},
    columns={"amount": "any", "price": "currency", "size": "amount"},
    needs=("price", "size"),
)

SPEC_COST = Calculator(
    "cost_of_spec",
    "Cost of a drink from the prices of its lines",
    var("cost", "currency", "cost, drink costs, total cost, ingredients, cost of the drink"),
    include(POUR_COST),
    lines=LINES,
    only="cost, price, costing",
    words="cost of the drink, costing, cost card, bottle prices, spec cost",
    asked="cost, pour_cost, price",
    method=["The lines cost {cost} together."],
    examples=[
        (
            "50 ml gin at $28 for a 700 ml bottle and 25 ml vermouth at $15 for a 750 ml bottle: cost of the drink?",
            "2.5 currency",
        )
    ],
    source="cost = sum of price x amount / size bought",
)

SPEC_COST_TAXED = Calculator(
    "cost_of_spec_with_tax",
    "Pour cost of a drink from the prices of its lines, where its price holds tax",
    var("cost", "currency", "cost, drink costs, total cost, ingredients, cost of the drink"),
    include(POUR_COST),
    include(TAX),
    var("price", "currency", "net price, price before tax, before tax, without tax"),
    var("profit", "currency", "profit, gross profit", bounds=(None, None)),
    lines=LINES,
    only="vat, gst, gross, including, with tax, tax included",
    words="cost of the drink, costing, spec cost, including tax, with tax, pour cost, vat, tax included",
    asked="pour_cost, cost, menu_price, price",
    method=[
        "The lines cost {cost} together.",
        "Take the tax out first: {menu_price} with {tax} tax is {price}. Then {cost} of it is {pour_cost}.",
    ],
    examples=[
        (
            "50 ml gin at $28 for a 700 ml bottle and 25 ml vermouth at $15 for a 750 ml bottle, "
            "menu price 15 including 20 % VAT: pour cost of the drink?",
            "20 percent",
        )
    ],
    source="cost = sum of price x amount / size bought",
)

GARNISH = Calculator(
    "cost_of_garnish",
    "Cost of one garnish",
    var("case_price", "currency", "case price, case costs, paid, box, price, kilo price, lime, lemon, orange, "
        "grapefruit, lime costs, lemon costs, orange costs, grapefruit costs, fruit costs", role="from"),
    var("pieces", "count", "fruit, in the case, fruit in a case, piece, pieces per case", things="fruit", default=1,
        note="one fruit"),
    var(
        "per_piece",
        "count",
        "garnish per fruit, wheel per fruit, wedge per fruit, twist per fruit, slice each, cut from one, wheel, "
        "wedge, twist, slice, garnish, from it, out of it, from one, out of one",
        role="each",
    ),
    var("cost", "currency", "cost, cost per garnish, garnish costs, each garnish, cost of a wheel, cost of a wedge, "
        "a wheel, a wedge, a twist, a slice, wedge is, wheel is, wedge is costed, per wheel, per wedge, per twist, "
        "per slice", role="each"),
    equations=["cost * pieces * per_piece = case_price"],
    words="garnish, wheel, wedge, twist, slice, cost",
    only="garnish, wheel, wedge, twist, slice",
    asked="cost, case_price, per_piece",
    method=["{pieces} fruit at {per_piece} each from a {case_price} case: one costs {cost}."],
    examples=[
        ("a case of 100 limes is 30.00 and gives 8 wedges per fruit, cost of a wedge garnish?", "0.0375 currency")
    ],
    source="cost = price / pieces",
)

BATCH_COST = Calculator(
    "batch_cost",
    "Cost of a batch and of one serve of it",
    var("batch_cost", "currency", "batch cost, batch costs, batch cost me, batch, whole batch, bottle, total"),
    var("serves", "count", "serve, serving, drink, portion, pour, glass, makes, yields", whole="down"),
    var("cost", "currency", "cost per serve, cost each, cost a drink, one serve cost, per drink, per pour, each, one, "
        "a serve, per serve, each serve, a drink, each drink, a portion, per portion, a glass, per glass, a head, "
        "per head", role="each"),
    equations=["batch_cost = serves * cost"],
    only="cost, costs, price, paying, comes to, come to, comes out at, is a portion, is a serve, is a drink",
    words="batch cost, cost per serve, per drink, per pour, batch of",
    asked="cost, batch_cost, serves",
    method=["A batch at {batch_cost} for {serves} serves is {cost} each."],
    examples=[("a batch costs 54.00 and makes 36 serves, cost per serve?", "1.5 currency")],
    source="cost = batch / serves",
)

LOSS = Calculator(
    "cost_after_loss",
    "Cost of what is poured when some is lost",
    var("cost", "currency", "cost, paper cost, cost before loss, theoretical cost, on paper, should cost, spec says"),
    var("lost", "percent", "lost, loss, lose, losing, spillage, waste, wastage, spill, share", bounds=(0, 100),
        role="lost"),
    var("real_cost", "currency", "real cost, true cost, cost after loss, cost with waste, actual cost, really costs, "
        "actually, in truth, in practice, stocktake, stock take, stock count, count says, till says"),
    equations=["real_cost * (1 - lost) = cost"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is poured."),
            limit("real_cost >= cost", "doubt", "A real cost of {real_cost} is less than the {cost} on paper.")],
    words="loss, spillage, waste, wastage, true cost, real cost, on paper",
    only="loss, lost, lose, losing, spillage, waste, wastage, spill, true cost, real cost, on paper",
    asked="real_cost, cost, lost",
    method=["With {lost} lost, {cost} becomes {real_cost}."],
    examples=[("a drink costs 2.40 and 4 % is lost to spillage, real cost?", "2.5 currency")],
    source="real cost = cost / (1 - lost)",
)

TAKINGS = Calculator(
    "takings",
    "What an evening's drinks take and earn",
    var("serves", "count", "drink, serve, sold, cocktail, glass, sell, have to sell, to sell", whole="up"),
    var("price", "currency", "price, sold at, sell for, sell at, price each, a drink, per drink, a serve, a glass",
        role="each"),
    var("cost", "currency", "cost, costs each, cost each", role="each"),
    var("takings", "currency", "takings, turnover, revenue, sales, we took, and took, took in, take in, do we take, "
        "we take, till has"),
    var("spent", "currency", "spent, total cost, outlay"),
    var("profit", "currency", "profit, earn, left over, gross profit", bounds=(None, None)),
    equations=["takings = serves * price", "spent = serves * cost", "profit = takings - spent"],
    only="takings, sold, revenue, break even, sell, sales, profit, do we take, we took, took in, take in",
    words="takings, sold, profit, revenue, evening, break even",
    asked="profit, takings, spent, serves",
    method=["{serves} at {price} take {takings}."],
    examples=[("40 drinks sold at 11.00 that cost 2.50 each, profit?", "340 currency")],
    source="takings = serves x price",
)

RATE = Calculator(
    "price_per_litre",
    "Price per litre",
    var("price", "currency", "price, cost, bottle price, paid"),
    var("volume", "liter", "bottle, volume, size, keg, case"),
    var("rate", "currency / liter", "price per litre, per litre, a litre, per liter", role="per"),
    equations=["price = rate * volume"],
    only="per litre, a litre, per ml, per ounce, per oz, per cl",
    words="per litre, a litre, compare bottles",
    asked="rate, price, volume",
    examples=[("a 700 ml bottle is 21.00, price per litre?", "30 currency / liter")],
    source="price = rate x volume",
)

EXCHANGE = Calculator(
    "exchange",
    "A price in another currency",
    var("price", "currency", "price, quote, bottle, invoice, amount", role="from",
        things="spirit,wine,liqueur,juice,syrup"),
    var("one", "currency", "one, rate of", default=1, note="of the other money", role="per"),
    var("worth", "currency", "worth, rate, exchange rate, today, is worth"),
    var(
        "converted",
        "currency",
        "converted, in euro, in eur, in dollars, in usd, in pounds, in gbp, in francs, in chf, in yen, "
        "in other currency, price in",
        role="to",
    ),
    equations=["converted * one = price * worth"],
    only="exchange, rate, currency, euro, eur, dollar, usd, pound, gbp, franc, chf, yen, converted",
    words="exchange, rate, currency, convert money, in euro, in dollars, in pounds",
    asked="converted, price, worth",
    examples=[("a bottle is 15 pounds at an exchange rate of 1.18, price in euro?", "17.7 currency")],
    source="converted = price x what one is worth",
)

CALCULATORS = (
    POUR, BY_WEIGHT, JUICE_COST, COUNTED, POUR_LOST, POUR_COST, TAX, TAXED, BOTTLE_PRICE, SPEC_COST,
    SPEC_COST_TAXED, GARNISH, BATCH_COST, LOSS, TAKINGS, RATE, EXCHANGE,
)  # fmt: skip
