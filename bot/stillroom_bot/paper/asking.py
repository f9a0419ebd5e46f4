"""``label for that``; ``labels for the lime cordial, 12 on a sheet``: the reply, with a picture and a sheet."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import time
from typing import TYPE_CHECKING

from .. import phrasing
from ..board.following import spec_meant
from ..board.spec import KeptSpec
from ..context import recall
from ..places import Unavailable
from ..reply import Attachment, Reply
from ..when.moments import days_on, moment, say_day, say_span, shifted
from ..when.zones import zone_of
from . import strength
from .filling import Made, made_of_answer, made_of_name, made_of_spec
from .fonts import drawable
from .keeping import Keeping, keeping_of, keeping_of_spec, row_for, shortest
from .label import LAW, Label
from .layout import Layout, TooSmall, lay_out
from .pdf import draw_pdf
from .png import draw_png
from .sheets import SHEETS, Sheet, counts, sheet_of
from .wish import Wish, wish_of

if TYPE_CHECKING:
    from ..intents import Heard, Talk

DAY = 86400.0
BY_THE_HOUR = 3 * DAY
"""What keeps less long than this carries the hour as well."""


def hear(talk: Talk) -> Heard:
    """The reply to a message that asks for labels."""
    wish = wish_of(talk.text, talk.now)
    if wish is None:
        return None
    if wish.wrong:
        return phrasing.declined(talk.text, wish.wrong), talk.state
    if wish.unclear is not None:
        return talk.asking(f"Which day is “{wish.unclear[0]}”?", "day", {
            say_day(d): talk.text.replace(wish.unclear[0], f"{d:%Y-%m-%d}") for d in wish.unclear[1]})
    made = _made(talk, wish)
    made = made.with_contents(talk.kernel, wish.contains) if made and wish.contains else made
    if made is None and not wish.of:
        return phrasing.declined(talk.text, "Nothing was worked out yet that a label could be for: name it, as in "
                                 "“label for lime cordial”."), talk.state
    if made is None:
        return phrasing.declined(
            talk.text, f"I know nothing called “{wish.of}”, and so not how long it keeps.",
            near=[f"label for {wish.of}, keeps 7 days"]), talk.state
    if not made.name:
        return phrasing.asks(talk.text, None, "What shall the label call it?", ["name"],
                             understood="say it as “label for that, called …”"), talk.state
    keeping = _keeping(talk, wish, made)
    if keeping is None:
        return phrasing.asks(talk.text, None, f"How long does {made.name} keep? I have no time for it.", ["keeps"],
                             understood=f"say it as “label for {made.name}, keeps 7 days”"), talk.state
    try:
        return _printed(talk, wish, made, keeping), talk.state
    except Unavailable as e:
        return phrasing.declined(talk.text, str(e)), talk.state


def _spec(talk: Talk, wish: Wish) -> KeptSpec | None:
    """The kept spec that a label is for: by its name, or the one that was spoken of last."""
    return talk.spec(wish.of) if wish.of else spec_meant(talk.state, talk.kernel)


def _made(talk: Talk, wish: Wish) -> Made | None:
    spec = _spec(talk, wish)
    if spec is not None:
        made = made_of_spec(talk.kernel, talk.book, spec)
        return replace(made, name=wish.called or made.name)
    if not wish.of:
        context = recall(talk.state.last, talk.kernel)
        if context is None:
            return None
        answer = talk.kernel.answer(context.request)
        if answer.status != "answered":
            return None
        made = made_of_answer(talk.kernel, context.request, answer)
        return replace(made, name=wish.called or made.name)
    if row_for(talk.kernel, wish.of) or wish.keeps or wish.use_by:
        made = made_of_name(talk.kernel, wish.of)
        return replace(made, name=wish.called or made.name)
    return None


def _keeping(talk: Talk, wish: Wish, made: Made) -> Keeping | None:
    """The message's own time, the spec's, the table's for such a thing, or that of what keeps shortest in it."""
    spec = _spec(talk, wish)
    row = row_for(talk.kernel, made.name)
    usual = (keeping_of_spec(talk.kernel, talk.book, spec) if spec else None) or (
        keeping_of(talk.kernel, row) if row else None) or shortest(talk.kernel, made.leaves)
    if wish.keeps or wish.use_by is not None:
        said = Keeping(wish.keeps or 0.0, "as you said")
        return replace(usual, seconds=said.seconds, source=said.source) if usual else said
    return usual


def _printed(talk: Talk, wish: Wish, made: Made, keeping: Keeping) -> Reply:
    label, cautions = _label(talk, wish, made, keeping)
    sheet = sheet_of(wish.sheet, wish.page)
    if sheet is None:
        return phrasing.declined(talk.text, f"I know no sheet of {wish.sheet} labels: I know "
                                 f"{', '.join(map(str, counts(wish.page)))} on {wish.page}.")
    plain = _drawable(label)
    if not plain.name:
        return phrasing.declined(talk.text, f"My type has no letters for {label.name!r}: give it a name in another "
                                 "script with “called …”.")
    if plain.name != label.name:
        cautions.append("Signs that my type has no letters for are left off.")
        label = plain
    try:
        layout = lay_out(label, sheet.width, sheet.height, sheet.inset)
    except TooSmall as e:
        most = max((s.count for s in SHEETS if s.name == sheet.name and _fits(label, s)), default=0)
        return phrasing.declined(talk.text, f"{e} At most {most} of it go on {sheet.name}." if most else str(e))
    name = re.sub(r"[^a-z0-9]+", "-", label.name.lower()).strip("-")[:40] or "label"
    files = [Attachment(f"{name}-{label.batch.lower()}.png", "image/png", draw_png(layout), label.name)]
    copies = 1
    if wish.paper:
        copies = wish.copies or sheet.count
        files.append(Attachment(f"{name}-{label.batch.lower()}.pdf", "application/pdf",
                                draw_pdf([layout] * copies, sheet, f"{label.name}, {label.batch}"), label.name))
    return _told(talk, label, made, keeping, layout, sheet, copies if wish.paper else 0, files, cautions, wish.of,
                 wish.page)


def _fits(label: Label, sheet: Sheet) -> bool:
    """Does a label find room on such a sheet?"""
    try:
        lay_out(label, sheet.width, sheet.height, sheet.inset)
    except TooSmall:
        return False
    return True


def _label(talk: Talk, wish: Wish, made: Made, keeping: Keeping) -> tuple[Label, list[str]]:
    zone = zone_of(talk.state.settings)
    at = talk.now if wish.made is None or wish.made == talk.now.date() else moment(wish.made, time(12), zone).at
    hours = wish.use_by is None and keeping.seconds < BY_THE_HOUR
    if wish.use_by is not None:
        use_by = moment(wish.use_by, time(12), zone).at
    elif hours:
        use_by = shifted(at, keeping.seconds)
    else:
        use_by = days_on(at, int(keeping.seconds // DAY))
    kind = strength.kind_of(made.kinds)
    label = Label(made.name[:1].upper() + made.name[1:], at, use_by, made.contents,
                  strength.on_label(made.abv) if made.abv is not None else "", made.allergens, keeping.storage, hours)
    cautions = [LAW]
    if label.strength and made.abv is not None:
        cautions.append(strength.told(made.abv, kind))
    cautions += [keeping.caution] if keeping.caution else []
    if use_by < talk.now:
        cautions.append(f"By that its time is over since {label.use_by_text}: throw it away.")
    asked = wish.keeps or (use_by - at).total_seconds()
    if keeping.most and asked > keeping.most * 1.001:
        cautions.append(f"That is longer than the usual {say_span(keeping.most)} for such a thing at most.")
    return label, cautions


def _drawable(label: Label) -> Label:
    return replace(label, name=drawable(label.name), contents=tuple(filter(None, map(drawable, label.contents))),
                   allergens=tuple((drawable(a), drawable(t)) for a, t in label.allergens))


def _told(talk: Talk, label: Label, made: Made, keeping: Keeping, layout: Layout, sheet: Sheet, copies: int,
          files: Sequence[Attachment], cautions: list[str], of: str, page: str) -> Reply:
    body = [f"Made {label.made_text}, batch {label.batch}."]
    if keeping.seconds:
        body[0] += f" Keeps {say_span(keeping.seconds)} ({keeping.source})."
    if label.contents:
        body.append(f"Contents: {', '.join(label.contents)}.")
    if label.allergens:
        body.append(f"Allergens: {label.allergen_text}.")
    if label.strength:
        body.append(f"Strength: {label.strength}.")
    if made.lacking:
        body.append(f"No strength on it: {made.lacking}.")
    if not label.contents:
        cautions.insert(1, "I do not know what is in it: write its contents and its allergens on the label yourself.")
    elif not made.whole:
        cautions.insert(1, "The contents are only what the sum names: say the rest with “contains …”, for its "
                           "allergens too.")
    if label.contents and made.strange:
        cautions.insert(1, f"I do not know {', '.join(made.strange)}: look up its allergens and add them by hand.")
    if layout.left_off:
        body.append(f"No room on {sheet.size} for the {' and the '.join(layout.left_off)}: take fewer on a sheet.")
    if copies and sheet.name != page:
        body.append(f"I know no {page} sheet of {sheet.count} labels, but {', '.join(map(str, counts(page)))}: this "
                    f"one is {sheet.name}.")
    if copies:
        sheets = -(-copies // sheet.count)
        body.append(f"{copies} on {sheets} {sheet.name} sheet{'s' if sheets > 1 else ''} of {sheet.count} "
                    f"({sheet.size} each): print at full size, not fitted to the page.")
    else:
        body.append(f"To print: “labels for {of or 'that'}, 12 on a sheet”.")
    body += [f"Beware: {c}" for c in cautions]
    return Reply("noted", talk.text, f"Label for {label.name}: use by {label.use_by_text}", tuple(body),
                 data={"cautions": cautions, "sources": [keeping.source]}, attachments=tuple(files))
