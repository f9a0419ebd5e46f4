"""Labels: what stands on them, on every sheet, and that nothing on them runs over or is too small to read.

Strengths and their tolerances: Regulation (EU) No 1169/2011, Annex XII; least size of type: its Article 13;
the most first: its Article 18.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image
from stillroom import Amount, Kernel, Line
from stillroom_bot.board import Book, KeptSpec
from stillroom_bot.conversation import Conversation
from stillroom_bot.paper.filling import made_of_name, made_of_spec
from stillroom_bot.paper.keeping import keeping_of_spec, row_for
from stillroom_bot.paper.label import Label
from stillroom_bot.paper.layout import SMALLEST, Bar, Text, TooSmall, lay_out
from stillroom_bot.paper.png import DOTS, EDGE, draw_png
from stillroom_bot.paper.sheets import SHEETS, sheet_of
from stillroom_bot.paper.strength import ANY, STEEPED, kind_of, on_label
from stillroom_bot.paper.wish import wish_of
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.terminal.files import saved

NOW = datetime(2026, 11, 25, 14, 0, tzinfo=UTC)
SETTINGS = State(settings={"zone": "UTC"})
LABEL = Label("Night Garden cordial", NOW, datetime(2026, 12, 9, 14, 0, tzinfo=UTC),
              ("sugar", "lime juice", "orgeat", "lime peel", "citric acid"), "alc. 4.2 % vol", (("nuts", "orgeat"),),
              "Keep cold, at 5 °C or below, closed.")


@pytest.fixture(scope="module")
def kernel() -> Kernel:
    return Kernel()


@pytest.fixture(scope="module")
def talker(kernel: Kernel) -> Conversation:
    return Conversation(kernel, clock=lambda: NOW)


def said(talker: Conversation, *texts: str) -> Reply:
    state, reply = SETTINGS, None
    for text in texts:
        reply, state = talker.answer(text, state)
    assert reply is not None
    return reply


def line(thing: str, ml: float, **attributes: Amount) -> Line:
    return Line(thing, Amount(ml, "milliliter", ml), attributes)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: f"{s.name}-{s.count}")
def test_every_sheet_fits_its_page_and_every_line_its_label(sheet) -> None:
    places = list(sheet.places())
    assert len(places) == sheet.count == len(set(places))
    assert min(min(p) for p in places) >= 0
    assert max(x for x, _ in places) + sheet.width <= sheet.page[0] + 1e-9
    assert max(y for _, y in places) + sheet.height <= sheet.page[1] + 1e-9
    if sheet.height < 20:
        with pytest.raises(TooSmall):
            lay_out(LABEL, sheet.width, sheet.height, sheet.inset)
        return
    layout = lay_out(LABEL, sheet.width, sheet.height, sheet.inset)
    assert layout.smallest >= SMALLEST - 1e-9
    for item in layout.items:
        assert item.x >= sheet.inset - 1e-6 and item.y >= sheet.inset - 1e-6
        right = item.x + (_width(item) if isinstance(item, Text) else item.width)
        assert right <= sheet.width - max(sheet.inset, 1.5) + 0.02
        assert item.y + (item.height if isinstance(item, Bar) else 0) <= sheet.height - 1.4
    lines = sorted((t.y, t.size) for t in layout.items if isinstance(t, Text))
    assert all(b - a == pytest.approx(0, abs=1e-6) or b - a >= 0.95 * size
               for (a, _), (b, size) in pairwise(lines)), "lines stand on each other"


def _width(t: Text) -> float:
    from PIL import ImageFont
    from stillroom_bot.paper.fonts import font_file

    return float(ImageFont.truetype(str(font_file(t.bold)), 300).getlength(t.text)) / 300 * t.size


def test_what_is_left_off_is_never_a_date_or_an_allergen() -> None:
    layout = lay_out(LABEL, 38.1, 21.2)
    told = " ".join(t.text for t in layout.items if isinstance(t, Text))
    assert layout.left_off and "9 Dec 2026" in told and "25 Nov 2026" in told and "NUTS (ORGEAT)" in told


def test_what_brings_an_allergen_is_bold_wherever_it_stands() -> None:
    label = replace(LABEL, contents=("punch (gin, orgeat)", "orgeat", "lime juice"))
    words = [(w, t.bold) for t in lay_out(label, 99.1, 67.7).items if isinstance(t, Text) for w in t.text.split()]
    assert [bold for w, bold in words if w.strip("(),.") == "orgeat"] == [True, True]
    assert [bold for w, bold in words if w.strip("(),.") in ("gin", "lime", "juice")] == [False] * 3


def test_the_picture_has_the_label_at_its_size() -> None:
    layout = lay_out(LABEL, 63.5, 72)
    picture = Image.open(BytesIO(draw_png(layout)))
    assert picture.size == (round((63.5 + 2 * EDGE) * DOTS), round((72 + 2 * EDGE) * DOTS))
    inked = sum(picture.convert("L").histogram()[:64]) / (picture.width * picture.height)
    assert 0.05 < inked < 0.4, "a label is neither empty nor black"


def test_strengths_are_written_as_annex_xii_has_them() -> None:
    assert on_label(14.249) == "alc. 14.2 % vol" and on_label(1.2) == "" and on_label(0.0) == ""
    assert kind_of({"spirit", "juice"}) is ANY and ANY.tolerance == 0.3
    assert kind_of({"spirit", "peel"}) is STEEPED and STEEPED.tolerance == 1.5


def test_a_spec_within_a_spec_brings_its_contents_strength_and_allergens(kernel: Kernel) -> None:
    """By hand: the liqueur is 100 × 40 / 200 = 20 %; the drink 50 × 20 / 100 = 10 %."""
    abv = Amount(40, "abv", 0.4)
    book = Book().put(KeptSpec(0, "Porch liqueur", (line("gin", 100, abv=abv), line("orgeat", 60), line("water", 40))))
    book = book.put(KeptSpec(0, "Evening cup", (line("lemon juice", 40), line("porch liqueur", 50), line("milk", 10))))
    spec = book.named("evening cup")
    assert spec is not None
    made = made_of_spec(kernel, book, spec)
    assert made.contents == ("porch liqueur (gin, orgeat, water)", "lemon juice", "milk")
    assert made.abv == pytest.approx(10) and dict(made.allergens) == {"nuts": "orgeat", "milk": "milk"}
    assert made.strange == ()


def test_the_time_of_a_spec_is_that_of_what_keeps_shortest_in_it(kernel: Kernel) -> None:
    """Egg white: 2 days by the table.  Lime juice alone keeps 1 day, but in the cordial it has the cordial's 10."""
    days = Amount(10, "day", 10 * 86400)
    book = Book().put(KeptSpec(0, "Lime cordial", (line("lime juice", 600), line("sugar", 400)), keeps=days))
    book = book.put(KeptSpec(0, "Evening cup", (line("gin", 50), line("lime cordial", 30), line("egg white", 20))))
    times = {name: keeping_of_spec(kernel, book, spec) for name, spec in book.by_key.items()}
    assert {name: k and k.seconds / 86400 for name, k in times.items()} == {"lime cordial": 10, "evening cup": 2}


def test_a_strength_counts_what_a_spec_makes_not_what_went_in(kernel: Kernel) -> None:
    """By hand: 100 ml at 40 % in what makes 400 ml (sugar dissolved in it) is 10 %."""
    makes, abv = Amount(400, "milliliter", 400), Amount(40, "abv", 0.4)
    gram = Line("sugar", Amount(300, "gram", 300))
    book = Book().put(KeptSpec(0, "Peel liqueur", (line("gin", 100, abv=abv), line("water", 100), gram), makes=makes))
    spec = book.named("peel liqueur")
    assert spec is not None and made_of_spec(kernel, book, spec).abv == pytest.approx(10)


def test_a_name_alone_tells_its_own_allergens(kernel: Kernel) -> None:
    assert dict(made_of_name(kernel, "smoked orgeat").allergens) == {"nuts": "orgeat"}
    assert dict(made_of_name(kernel, "almond milk").allergens).keys() <= {"nuts"}


def test_a_keeping_time_belongs_to_the_noun_at_the_end(kernel: Kernel) -> None:
    rows = {name: row_for(kernel, name) for name in ("lime leaf cordial", "Cordial Hour", "clarified milk punch")}
    assert [r and r.id for r in rows.values()] == ["cordial", None, "milk-punch"]


def test_a_batch_code_tells_two_batches_apart_and_itself_again() -> None:
    assert LABEL.batch == replace(LABEL).batch and LABEL.batch.startswith("NGC-261125-")
    assert LABEL.batch != replace(LABEL, made=NOW.replace(minute=1)).batch


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("label for that", {"of": "", "paper": False}),
        ("Labels for the lime cordial, 12 on a sheet", {"of": "lime cordial", "sheet": 12, "paper": True}),
        ("print 24 labels for it on letter paper", {"of": "", "copies": 24, "page": "Letter"}),
        ("label for that called Garden milk, keeps 3 days", {"called": "Garden milk", "keeps": 3 * 86400.0}),
        ("labels of orgeat as pdf, made yesterday", {"of": "orgeat", "paper": True, "made": date(2026, 11, 24)}),
        ("label for it, contains gin, milk and sugar", {"contains": ("gin", "milk", "sugar")}),
    ],
)
def test_what_is_wished(text: str, wish: dict[str, object]) -> None:
    found = wish_of(text, NOW)
    assert found is not None and {k: getattr(found, k) for k in wish} == wish


@pytest.mark.parametrize("text", ["label: salt 57 g / finished weight 380 g", "labels cost 0.12 each, 400 of them?",
                                  "This rum's label has 151 proof on it"])
def test_other_talk_of_labels_is_left_alone(text: str) -> None:
    assert wish_of(text, NOW) is None


def test_the_last_answer_gets_a_label_and_a_sheet(talker: Conversation, tmp_path: Path) -> None:
    reply = said(talker, "milk for 2 l of punch", "labels for that, 12 on a sheet")
    assert reply.headline == "Label for Milk punch: use by 25 Dec 2026"
    assert [a.media for a in reply.attachments] == ["image/png", "application/pdf"]
    assert reply.attachments[1].content.startswith(b"%PDF") and sheet_of(12) is not None
    assert "local labelling law" in reply.text and "Allergens: milk." in reply.text
    first, second = list(saved(reply, tmp_path)), list(saved(reply, tmp_path))
    assert len(set(first + second)) == 4
    assert all(Path(s.removeprefix("Saved: ")).stat().st_size > 1000 for s in first + second)


def test_a_day_that_may_be_one_of_two_is_asked_for(talker: Conversation) -> None:
    reply = said(talker, "label for lime cordial made 03/11")
    assert reply.status == "asks" and reply.buttons == ("Tuesday 3 November", "Wednesday 11 March")
    reply = said(talker, "label for lime cordial made 03/11", "Tuesday 3 November")
    assert reply.headline.endswith("use by 17 Nov 2026") and "throw it away" in reply.text


def test_what_is_not_known_is_asked_or_said(talker: Conversation) -> None:
    assert said(talker, "label for gizmo").status == "declined"
    assert said(talker, "simple syrup, 500 g: how much sugar?", "label for that").status == "asks"
    assert "do not know what is in it" in said(talker, "label for gizmo, keeps 7 days").text
    assert said(talker, "labels for cordial, 13 on a sheet").status == "declined"


def test_a_use_by_follows_the_calendar_not_the_clock(kernel: Kernel) -> None:
    """In Rome the clock goes back on 25 October 2026: 14 days on it is still the 14th day, at the same hour."""
    talker = Conversation(kernel, clock=lambda: datetime(2026, 10, 20, 22, 30, tzinfo=UTC))
    reply, _ = talker.answer("label for lime cordial", State(settings={"zone": "Europe/Rome"}))
    assert "use by 4 Nov 2026" in reply.headline and "Made 21 Oct 2026" in reply.text


def test_a_run_in_bold_is_as_wide_as_a_pdf_sets_it() -> None:
    """A PDF draws each letter at its own width, no pair of them closer, so that the next run does not touch."""
    from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth
    from reportlab.pdfbase.ttfonts import TTFont
    from stillroom_bot.paper.fonts import font_file, width_of

    registerFont(TTFont("Measured", str(font_file(True))))
    for text in ("whole milk, fino sherry, wheat beer, ", "AVOCADO TOFFEE, Tokay"):
        assert width_of(text, True) == pytest.approx(stringWidth(text, "Measured", 1), rel=0.002)


def test_a_low_label_still_holds_a_name_and_its_dates() -> None:
    sheet = sheet_of(80, "Letter")
    assert sheet is not None
    layout = lay_out(replace(LABEL, name="Rush Syrup", allergens=()), sheet.width, sheet.height, sheet.inset)
    assert {t.text for t in layout.items if isinstance(t, Text)} >= {"Rush Syrup", "USE BY 9 Dec 2026"}


def test_a_sheet_that_is_not_of_the_page_that_was_named_says_so(talker: Conversation) -> None:
    told = said(talker, "labels for lime cordial, 24 on a sheet, letter").text
    assert "I know no Letter sheet of 24 labels" in told and "24 on 1 A4 sheet" in told
    assert "I know no" not in said(talker, "labels for lime cordial, 30 on a sheet, letter").text


def test_the_most_that_go_on_a_page_are_named(talker: Conversation) -> None:
    """All that has to be said of five allergens finds no room on 38 × 21 mm."""
    told = said(talker, "labels for lime cordial, keeps 2 days, 65 on a sheet, contains milk, egg white, wheat beer, "
                        "fino sherry, orgeat").text
    assert "too small" in told and "At most 40 of it go on A4." in told
    assert "say how many stand on your sheet" in said(talker, "label for lime cordial 50 x 30 mm").text
