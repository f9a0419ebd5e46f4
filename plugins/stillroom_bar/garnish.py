"""Herbs by the bunch and whites by the egg: what so many drinks take."""

from __future__ import annotations

from stillroom import Calculator, limit, var

from .things import said

TRADE = "common practice, no source"

HERBS = Calculator(
    "herb_bunches",
    "Bunches of herbs for a service",
    var("serves", "count", "drink, serve, cocktail, portion, guest", whole="down"),
    var("each", "count", "leaf per drink, sprig each, leaves a drink, leaf in each drink, per drink, "
        "leaf", things="herb", role="each"),
    var("bunch", "count", "leaves per bunch, per bunch, leaf in a bunch, to a bunch, leaf to a bunch, "
        "in a bunch, a bunch has", role="per"),
    var("bunches", "count", "bunch, pot, packet, how many bunches", whole="up"),
    equations=["serves * each = bunches * bunch"],
    only="herb, mint, basil, leaf, leaves, sprig, bunch",
    words="herb, mint, basil, leaf, leaves, sprig, bunch, garnish",
    asked="bunches, serves, each",
    method=["{bunches} bunches for {serves} serves of {each} leaves."],
    examples=[("8 mint leaves a drink, 60 drinks, 70 leaves to a bunch: how many bunches?", "7 count")],
    source=TRADE,
)

LEAVES = Calculator(
    "herb_leaves",
    "Leaves for a service",
    var("serves", "count", "drink, serve, cocktail, portion, guest", whole="down"),
    var("each", "count", "leaf per drink, sprig each, leaves a drink, leaf in each drink, per drink, leaf, sprig",
        things="herb", role="each"),
    var("leaves", "count", "leaf, leaves in all, sprig", things="herb", whole="up"),
    equations=["leaves = serves * each"],
    only="leaf, leaves, sprig",
    words="herb, mint, basil, leaf, leaves, sprig, garnish",
    asked="leaves, serves, each",
    method=["{leaves} leaves for {serves} serves of {each}."],
    examples=[("12 basil leaves a drink, 25 drinks: how many leaves?", "300 count")],
    source=TRADE,
)

EGG_WHITE = Calculator(
    "egg_white",
    "Eggs for so much white",
    var("eggs", "count", "egg", things="egg", whole="up"),
    var(
        "each",
        "milliliter",
        "white of an egg, white per egg, per egg, an egg, each egg, one egg, every egg",
        default=30,
        role="per",
        note="the white of a large egg is about 30 ml (USDA: 34 g; the volume is common practice)",
    ),
    var("white", "milliliter", "egg white, white, albumen", things="egg"),
    var("serves", "count", "drink, serve, sour, flip, cocktail, party, guest, portion, party of", whole="down"),
    var("dose", "milliliter", "white per drink, egg white each, in each, in each one, a drink, each flip, "
        "each sour, each takes",
        role="each", things="egg"),
    equations=["white = eggs * each", "white = serves * dose"],
    limits=[limit("dose >= least", "doubt", "{dose} of white in a drink is less than anybody tastes.")],
    constants={"least": (4, "milliliter")},
    only="egg, eggs, egg white, whites, white, albumen",
    words="egg, egg white, whites, sour, foam",
    asked="eggs, white, serves",
    method=["Separate {eggs} eggs for {white} of white; strain it, date it, keep it cold."],
    cautions=[said("raw-egg"), said("egg")],
    examples=[("how many eggs for 40 sours with 20 ml of egg white each?", "27 count")],
    sources=["USDA FoodData Central: the white of a large egg weighs 34 g", TRADE],
)

CALCULATORS = (HERBS, LEAVES, EGG_WHITE)
