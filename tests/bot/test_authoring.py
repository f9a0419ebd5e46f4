"""Beginning a plugin, and the report of a check: each kind of finding, from a file of a few lines."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from stillroom import Calculator, Kernel, choice, var
from stillroom.sources import from_file
from stillroom_bot import cli
from stillroom_bot.authoring.checking import run
from stillroom_bot.authoring.finding import Finding
from stillroom_bot.authoring.new import FILES, new_plugin
from stillroom_bot.authoring.sentences import sentences
from stillroom_bot.authoring.stages import Checked

HEAD = "from stillroom import Calculator, Function, limit, var, choice\n"
WAX = '''candle = Calculator("candle", "Wax for a candle", var("wax", "gram"), var("mould", "milliliter"{bounds}),
    var("density", "gram / milliliter", default=0.9{density}), {more}equations=["wax = density * mould"],
    {rest})
'''
WHOLE = 'example=("how much wax for a 100 ml mould?", "90 gram"), source="made up"'


@pytest.fixture(autouse=True)
def places(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Nothing of the person who runs the tests is read or written."""
    monkeypatch.setenv("STILLROOM_CONFIG", str(tmp_path / "config"))
    monkeypatch.setenv("STILLROOM_CACHE", str(tmp_path.parent / "cache"))


def wax(bounds: str = "", density: str = "", more: str = "", rest: str = WHOLE) -> str:
    """A plugin of one calculator, changed somewhere."""
    return HEAD + WAX.format(bounds=bounds, density=density, more=more, rest=rest)


def found(code: str, tmp_path: Path) -> list[Finding]:
    """What a check finds in a file of some code."""
    (tmp_path / "waxworks.py").write_text(code)
    return list(Checked(from_file(tmp_path / "waxworks.py"), lambda _: None).stages())


def test_a_whole_one_has_nothing_to_mend(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "waxworks.py").write_text(wax())
    assert cli.main(["plugin", "check", str(tmp_path / "waxworks.py"), "--strict"]) == 0
    out = capsys.readouterr().out.splitlines()
    assert out[0].startswith(f"waxworks without a version, from {tmp_path / 'waxworks.py'}: loaded in ")
    assert out[1].startswith("  waxworks.candle: 3 points solved in ") and out[1].endswith(" directions, 1 example")
    assert out[2].startswith("  the first answer takes ") and out[-1] == "Nothing found: ready."


CASES = {
    "no source": (wax(rest='example=("how much wax for a 100 ml mould?", "90 gram")'), "error", "no source is named"),
    "no example": (wax(rest='source="made up"'), "error", "no example is given"),
    "a wrong example": (wax(rest='example=("how much wax for a 100 ml mould?", "91 gram"), source="s"'), "error",
                        "its example 'how much wax for a 100 ml mould?' fails: wax: 90 gram is not 91 gram"),
    "an example that is not read": (wax(rest='example=("how much tallow?", "91 gram"), source="s"'), "error",
                                    "its example 'how much tallow?' fails: it declines instead of answering: "),
    "a default outside its bounds": (wax(density=", bounds=(1, 2)"), "error",
                                     "the default of density is 0.9, outside its bounds"),
    "a variable in no equation": (wax(more='var("wick", "centimeter"), '), "error", "wick stands in no equation"),
    "several roots": (
        HEAD + 'c = Calculator("hill", "t", var("place", "centimeter", bounds=(0, 10)), var("height", "count"), '
        'equations=["height = f(place)"], functions=[Function("f", lambda x: x * (10 - x), ("centimeter",), "count", '
        '(0, 10))], example=("height at 2 cm?", "16 count"), source="s")\n',
        "note", "no single answer for place from height: More than one place fits"),
    "no caution": (wax(rest=WHOLE + ', words="siphon, wax"'), "warning",
                   "it is about gas under pressure (it says siphon), and no caution speaks of that"),
    "a caution of something else": (
        wax(rest=WHOLE + ', words="siphon, wax", cautions=["Wax burns."]'), "note",
        "it is about gas under pressure (it says siphon), and no caution speaks of that"),
    "an allergen, and a caution of something else": (
        wax(rest=WHOLE + ', words="flour, wax", cautions=["Wax burns."]'), "warning",
        "it is about gluten (it says flour), and no caution speaks of that"),
    "slow to load": ("import time\ntime.sleep(0.4)\n" + wax(), "warning", "every start waits "),
    "a syntax error": ("def broken(:\n", "error", "could not be loaded: SyntaxError"),
    "a taken unit": (
        "from stillroom import hookimpl\n@hookimpl\ndef stillroom_units():\n"
        "    return [{'name': 'dash', 'definition': '2 * milliliter', 'words': 'dash'}]\n",
        "error", "The unit 'dash' is defined twice"),
}


@pytest.mark.parametrize(("code", "level", "text"), CASES.values(), ids=CASES.keys())
def test_what_is_wrong_is_found(code: str, level: str, text: str, tmp_path: Path) -> None:
    told = found(code, tmp_path)
    mine = [f for f in told if text in f.text]
    assert mine, [f"{f.level} {f.text}" for f in told]
    assert mine[0].level == level


SPOKEN = {
    "in a caution": WHOLE + ', words="flour, wax", cautions=["Flour holds gluten."]',
    "in a limit": WHOLE + ', words="flour, wax", limits=[limit("mould <= most", "caution", "An allergen.")], '
    'constants={"most": (9, "liter")}',
}
SEEDS = HEAD + """from stillroom import hookimpl
c = Calculator("paste", "Paste of seeds", var("paste", "gram", "paste", things="seed", state="dry"),
    var("seeds", "gram", "weight of seeds"), equations=["paste = 0.9 * seeds"],
    example=("how much paste from 100 g weight of seeds?", "90 gram"), source="made up", cautions=[{caution!r}])
@hookimpl
def stillroom_calculators():
    return [c]
@hookimpl
def stillroom_substances():
    return [{{"id": "pip", "words": "pip", "state": "dry", "kind": "seed", "allergens": "lupin", "source": "made up"}}]
@hookimpl
def stillroom_cautions(request, answer):
    return [{hook!r}]
"""


@pytest.mark.parametrize("rest", SPOKEN.values(), ids=SPOKEN.keys())
def test_a_caution_that_speaks_of_it_is_enough(rest: str, tmp_path: Path) -> None:
    assert not [f.text for f in found(wax(rest=rest), tmp_path) if "no caution speaks" in f.text]


def test_an_allergen_of_its_own_substances_has_to_be_named(tmp_path: Path) -> None:
    """By the declaration, or by the hook in what is answered."""
    def told(caution: str, hook: str) -> bool:
        findings = found(SEEDS.format(caution=caution, hook=hook), tmp_path)
        return any("pip with its allergen lupin" in f.text for f in findings)

    assert told("Grind it fresh.", "Grind it fresh.")
    assert not told("Lupin is an allergen.", "Grind it fresh.")
    assert not told("Grind it fresh.", "Lupin is an allergen.")


COLLIDES = HEAD + (
    'c = Calculator("steep", "Sugar for peel", var("sugar", "gram", "sugar"), var("peel", "gram", '
    '"peel, lemon peel", things="peel"), equations=["sugar = 3 * peel"], words="peel, sugar, oleo, peel sugar, '
    'lemon, citrus peel, oleo saccharum", example=("180 g of lemon peel, how much sugar for the oleo?", '
    '"540 gram"), source="s")\n')


def test_sentences_that_would_be_ambiguous_are_told_with_the_words(tmp_path: Path) -> None:
    told = [f for f in found(COLLIDES, tmp_path) if f.text.startswith("it makes ")]
    assert any("(of bar." in f.text and "Shared words: " in f.text and "peel" in f.text for f in told)
    assert all(f.todo for f in told)


def test_its_own_plain_sentences_are_asked_among_the_others(tmp_path: Path) -> None:
    """Sugar for peel is somebody's already: that sentence is named, with who takes it or what is asked back."""
    code = COLLIDES.replace('words="peel, sugar, oleo, peel sugar, lemon, citrus peel, oleo saccharum", ', "")
    told = [f for f in found(code, tmp_path) if "is not answered by it: " in f.text]
    assert any("'how much sugar for " in f.text and " g of peel?'" in f.text and "bar." in f.text for f in told)
    assert {f.level for f in told} <= {"warning", "note"} and all(f.todo for f in told)


def test_plain_sentences_are_made_of_words_and_numbers() -> None:
    """The middle of 0.4 to 3.6 l by ratio is 1.2 l; two words for what is asked, one for what is given, and the row."""
    kernel = Kernel(discover=False)
    kernel.add("ink", Calculator(
        "ink", "Ink", var("soot", "gram", "soot, lampblack, carbon"), var("ink", "liter", "ink", bounds=(0, 4)),
        var("dose", "gram / liter"), choice(
            "grade", [{"id": "fine", "words": "fine", "dose": 20, "source": "made up"}], fills={"dose": "dose"}),
        equations=["soot = dose * ink"]))
    assert list(sentences(kernel, "ink.ink"))[:3] == [
        "how much soot for 1.2 l of ink with fine?", "how much lampblack for 1.2 l of ink with fine?",
        "how much ink for 45 g of soot with fine?"]


@pytest.mark.parametrize(("code", "text"), [
    ("while True:\n    try:\n        pass\n    except BaseException:\n        pass\n",
     "it does not end: loading it took more than 5 s"),
    ("import os\nos._exit(3)\n", "it ended the whole process while loading it"),
])
def test_one_that_never_loads_is_told(code: str, text: str, tmp_path: Path) -> None:
    (tmp_path / "waxworks.py").write_text(code)
    (finding,) = run(str(tmp_path / "waxworks.py"), 5).findings
    assert (finding.level, finding.text) == ("error", text)


@pytest.mark.parametrize("argument", ["nobody", "tests/nowhere.py"])
def test_nobody_by_that_name_is_a_sentence_and_2(argument: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["plugin", "check", argument]) == 2
    assert "is no installed plugin, no .py file and no folder with a pyproject.toml" in capsys.readouterr().err


def test_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "waxworks.py").write_text(wax(rest='source="made up"'))
    assert cli.main(["plugin", "check", str(tmp_path / "waxworks.py"), "--json"]) == 1
    data = json.loads(capsys.readouterr().out)
    assert data["ready"] is False and data["plugins"][0]["calculators"][0]["name"] == "waxworks.candle"
    assert [(f["level"], f["about"]) for f in data["findings"]] == [("error", "waxworks.candle")]


def test_a_new_plugin_has_nothing_to_mend(tmp_path: Path) -> None:
    status, text = new_plugin("wax_works", tmp_path)
    folder = tmp_path / "stillroom-wax-works"
    assert status == 0 and str(folder) in text
    assert {str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file()} == {
        f.format(name="wax_works") for f in FILES}
    checkup = run(str(folder), 30)
    assert [(f.level, f.text[:31]) for f in checkup.findings] == [("note", "its caution is still the one th")]
    assert checkup.heads[0]["calculators"][0]["directions"] > 0
    assert "$" not in "".join(p.read_text("utf-8") for p in folder.rglob("*") if p.suffix in (".py", ".csv", ".toml"))


def test_nothing_is_written_over(tmp_path: Path) -> None:
    assert new_plugin("waxworks", tmp_path)[0] == 0
    assert new_plugin("waxworks", tmp_path)[0] == 2
    assert new_plugin("Wax-works", tmp_path)[0] == 64 and len(list(tmp_path.iterdir())) == 1
