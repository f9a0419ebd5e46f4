"""The tables: a source on every row, sane numbers, words that mean one thing, and a strict reader."""

import re

import pytest
from stillroom_bar import tables
from stillroom_bar.physics import acids, ethanol, sucrose

OURS = (
    "acids", "alcohol_units", "cautions", "densities", "fruit_yield", "household", "hydrocolloids",
    "infusions", "juices", "keeping", "substances", "sweeteners",
)  # fmt: skip

BOUNDS = {
    "g/ml": (0.75, 1.5), "% v/v": (0.5, 97), "% w/w": (0, 100), "% w/v": (0, 10), "g/100 ml": (0.05, 8),
    "ml": (5, 5000), "g": (0.04, 5000), "day": (0.05, 1100), "hour": (0.2, 400), "g/l": (0.4, 600),
    "°C": (0, 100), "g/mol": (50, 220), "1": (1, 13), "g/g": (0.5, 3),
}  # fmt: skip

EU_ALLERGENS = {
    "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts",
    "celery",
    "mustard", "sesame", "sulphur dioxide and sulphites", "lupin", "molluscs",
}  # fmt: skip
"""Regulation (EU) 1169/2011, Annex II: the fourteen."""

RANGES = [
    ("hydrocolloids", "low", "typical", "high"), ("keeping", "low", "typical", "high"),
    ("infusions", "low", "typical", "high"), ("fruit_yield", "juice_low", "juice", "juice_high"),
]  # fmt: skip


def rows(name: str, **where: str) -> list[tables.Row]:
    return [r for r in tables.load(name) if all(r[k] == v for k, v in where.items())]


def one(name: str, **where: str) -> tables.Row:
    (row,) = rows(name, **where)
    return row


@pytest.mark.parametrize("name", tables.names())
def test_every_row_has_a_source(name: str) -> None:
    assert tables.load(name)
    for row in tables.load(name):
        assert isinstance(row["source"], str) and len(row["source"]) > 3, row


@pytest.mark.parametrize("name", OURS)
def test_every_number_is_within_sane_bounds(name: str) -> None:
    for key, unit in tables.units(name).items():
        low, high = BOUNDS[unit]
        for row in tables.load(name):
            value = row[key]
            assert value is None or low <= value <= high, (key, row)


@pytest.mark.parametrize("name", OURS)
def test_a_word_names_one_row(name: str) -> None:
    seen: dict[tuple[str, str], int] = {}
    for number, row in enumerate(tables.load(name)):
        measure = str(row.get("measure", ""))
        for word in row.get("words", ()):
            assert word == word.lower().strip() and ";" not in word
            assert (word, measure) not in seen, word
            seen[word, measure] = number


@pytest.mark.parametrize("name", [n for n in OURS if n not in ("household",)])
def test_the_first_column_tells_rows_apart(name: str) -> None:
    keys = [next(iter(row.values())) for row in tables.load(name)]
    assert len(keys) == len(set(keys))
    assert all(re.fullmatch(r"[a-z0-9-]+", str(key)) for key in keys)


@pytest.mark.parametrize(("name", "low", "middle", "high"), RANGES)
def test_ranges_are_in_order(name: str, low: str, middle: str, high: str) -> None:
    for row in tables.load(name):
        figures = [row[low], row[middle], row[high]]
        assert figures == [None] * 3 or (None not in figures and figures == sorted(figures)), row


def test_allergens_are_the_fourteen() -> None:
    for name in ("substances", "hydrocolloids"):
        for row in tables.load(name):
            assert set(row["allergens"]) <= EU_ALLERGENS, row


def test_cautions_that_are_named_exist_and_are_sentences() -> None:
    known = {row["key"] for row in tables.load("cautions")}
    for name in ("substances", "keeping", "infusions"):
        for row in tables.load(name):
            assert set(row["caution"]) <= known, row
    for row in tables.load("cautions"):
        assert str(row["sentence"])[0].isupper() and str(row["sentence"]).endswith("."), row


def test_an_allergen_brings_its_caution() -> None:
    for row in tables.load("substances"):
        assert bool(row["allergens"]) <= bool(row["caution"]), row


def test_what_is_refused_has_no_dose_and_says_why() -> None:
    refused = [r for r in tables.load("infusions") if r["refused"]]
    assert {r["refused"] for r in refused} == {"yes"}
    for row in refused:
        assert row["low"] is None and row["typical"] is None and row["caution"], row
    assert {"tobacco", "apricot-kernel", "quinine", "methanol"} <= {r["thing"] for r in refused}
    for thing in ("tonka", "cinchona", "charcoal"):
        assert one("infusions", thing=thing)["typical"] is None and one("infusions", thing=thing)["caution"]


def test_states_are_three() -> None:
    assert {row["state"] for row in tables.load("substances")} == {"liquid", "dry", "piece"}


def test_plain_spirits_have_the_density_of_their_strength() -> None:
    spirits = [r for r in tables.load("substances") if "OIML" in str(r["source"])]
    assert len(spirits) > 20
    for row in spirits:
        assert row["density"] == pytest.approx(ethanol.density_by_abv(row["abv"] / 100), abs=6e-5), row


@pytest.mark.parametrize(("thing", "w"), [("simple-syrup", 0.5), ("rich-syrup", 2 / 3)])
def test_syrups_have_the_density_of_their_sugar(thing: str, w: float) -> None:
    for name in ("substances", "sweeteners"):
        assert one(name, id=thing)["density"] == pytest.approx(sucrose.density(w), abs=1e-4)


def test_acids_agree_with_the_function_that_uses_them() -> None:
    for row in tables.load("acids"):
        name = str(row["id"]).replace("-", " ")
        if name not in acids.ACIDS:
            continue
        known = acids.acid(name)
        assert (row["molar_mass"], row["groups"]) == (known.molar_mass, known.groups)
        assert tuple(row[k] for k in ("pka1", "pka2", "pka3") if row[k] is not None) == known.pka
        assert row["as_citric"] == pytest.approx(acids.as_citric(name), abs=1e-4)


# USDA FoodData Central: grams of a US cup (236.588 ml) give the densities that the tables print.
@pytest.mark.parametrize(
    ("thing", "cup"),
    [("lemon-juice", 244), ("lime-juice", 242), ("grapefruit-juice", 247), ("tomato-juice", 243),
     ("honey", 339),
     ("molasses", 337), ("cranberry-juice", 253), ("coconut-water", 240), ("buttermilk", 245)],
)  # fmt: skip
def test_densities_from_a_cup(thing: str, cup: float) -> None:
    assert one("substances", id=thing)["density"] == pytest.approx(cup / 236.5882365, abs=1e-4)


# Penniston 2008, grams of citric acid in a US fluid ounce: lemon 1.44, lime 1.38.
@pytest.mark.parametrize(("juice", "grams"), [("lemon", 1.44), ("lime", 1.38)])
def test_measured_citric_acid(juice: str, grams: float) -> None:
    assert one("juices", juice=juice)["measured_citric"] == pytest.approx(grams / 0.295735, rel=0.03)


# Common practice, no source: the strengths by which bars adjust juice.
@pytest.mark.parametrize(
    ("juice", "acid"), [("lime", 6), ("lemon", 6), ("grapefruit", 2), ("pineapple", 0.8), ("orange", 0.8)]
)
def test_typical_acid(juice: str, acid: float) -> None:
    assert one("juices", juice=juice)["acid"] == acid


def test_acids_of_a_juice_add_up() -> None:
    for row in tables.load("juices"):
        parts = [row[k] for k in ("citric", "malic", "tartaric") if row[k] is not None]
        assert not parts or sum(parts) == pytest.approx(row["acid"]), row


# Official alcohol units: NIAAA, the UK unit, the country summary in Addiction 2016.
@pytest.mark.parametrize(
    ("unit", "grams"), [("us", 14), ("au", 10), ("nz", 10), ("ie", 10), ("at", 20), ("dk", 12), ("ca", 13.45)]
)
def test_alcohol_units(unit: str, grams: float) -> None:
    assert one("alcohol_units", id=unit)["ethanol"] == grams


def test_the_uk_unit_is_ten_millilitres() -> None:
    unit = one("alcohol_units", id="uk")
    assert unit["ethanol_volume"] == 10
    assert unit["ethanol"] == pytest.approx(10 * ethanol.DENSITY, abs=1e-4)


# USDA household weights: a cup of granulated sugar 200 g, a teaspoon of table salt 6 g.
def test_household_weights() -> None:
    assert one("household", thing="granulated-sugar", measure="cup")["mass"] == 200
    assert one("household", thing="table-salt", measure="teaspoon")["mass"] == 6


# American Egg Board conversion sheet: 12 g of dried white with 88 g of water make 100 g.
def test_dried_egg_white() -> None:
    assert one("hydrocolloids", id="egg-white-powder")["high"] == 12


# FDA Food Code 3-501.17: seven days at most for what is held under that rule.
def test_food_code_items_keep_a_week_at_most() -> None:
    held = [r for r in tables.load("keeping") if "3-501.17" in str(r["source"])]
    assert len(held) > 10 and all(r["high"] <= 7 for r in held)


BAD = [
    ("id,density [g/ml],source\nx,heavy,book\n", r"bad\.csv, line 2, column density: 'heavy' is no number"),
    ("id,density [g/ml],source\nx,1,book\ny,nan,book\n", r"bad\.csv, line 3, column density"),
    ("id,density [g/ml],source\nx,1,\n", r"bad\.csv, line 2, column source"),
    ("id,density [g/ml],source\nx,1\n", r"bad\.csv, line 2: 2 cells where 3 belong"),
    ("id,density [g/ml]\nx,1\n", r"bad\.csv, line 1"),
    ("id,id,source\nx,1,book\n", r"bad\.csv, line 1"),
    ("", r"bad\.csv, line 1"),
]


@pytest.mark.parametrize(("text", "message"), BAD)
def test_a_bad_cell_is_named(tmp_path, monkeypatch, text: str, message: str) -> None:
    (tmp_path / "bad.csv").write_text(text, encoding="utf-8")
    monkeypatch.setattr(tables, "_FOLDER", tmp_path)
    tables.load.cache_clear()
    with pytest.raises(ValueError, match=message):
        tables.load("bad")


def test_cells_are_read_by_their_column(tmp_path, monkeypatch) -> None:
    text = 'id,words,density [g/ml],note,source\nx,a; b ;,1.5,"one, two",book\ny,,,,book\n'
    (tmp_path / "good.csv").write_text(text, encoding="utf-8")
    monkeypatch.setattr(tables, "_FOLDER", tmp_path)
    assert tables.load("good") == (
        {"id": "x", "words": ("a", "b"), "density": 1.5, "note": "one, two", "source": "book"},
        {"id": "y", "words": (), "density": None, "note": None, "source": "book"},
    )
    assert tables.units("good") == {"density": "g/ml"}


@pytest.mark.parametrize("name", ["nothing", "../tables/acids", ""])
def test_an_unknown_table_is_named(name: str) -> None:
    with pytest.raises(ValueError, match="There is no table"):
        tables.load(name)


def test_a_table_is_read_once() -> None:
    assert tables.load("acids") is tables.load("acids")
