"""Labels by the sheet, to be printed at full size."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from ..places import Unavailable
from .fonts import font_file
from .layout import Layout, Text
from .sheets import Sheet

POINT = 72 / 25.4
"""Points a millimetre."""
NAMES = {False: "Label", True: "Label-Bold"}


def draw_pdf(layouts: Sequence[Layout], sheet: Sheet, title: str) -> bytes:
    """Sheets with these labels, one after the other; no dates or names of a machine are put in the file.

    Raises Unavailable where reportlab is not installed.
    """
    try:
        from reportlab.pdfbase.pdfmetrics import registerFont
        from reportlab.pdfbase.ttfonts import TTFont
        from reportlab.pdfgen.canvas import Canvas
    except ImportError:
        raise Unavailable("A sheet of labels needs the package reportlab, which is not installed.") from None
    for bold, name in NAMES.items():
        registerFont(TTFont(name, str(font_file(bold))))
    out = BytesIO()
    canvas = Canvas(out, pagesize=(sheet.page[0] * POINT, sheet.page[1] * POINT), invariant=1)
    canvas.setTitle(title)
    for start in range(0, len(layouts), sheet.count):
        for layout, (left, bottom) in zip(layouts[start:start + sheet.count], sheet.places(), strict=False):
            _draw(canvas, layout, left, bottom)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _draw(canvas: Any, layout: Layout, left: float, bottom: float) -> None:
    for item in layout.items:
        x, up = left + item.x, bottom + layout.height - item.y
        if isinstance(item, Text):
            canvas.setFillGray(1 if item.white else 0)
            canvas.setFont(NAMES[item.bold], item.size * POINT)
            canvas.drawString(x * POINT, up * POINT, item.text)
        else:
            canvas.setFillGray(0)
            canvas.rect(x * POINT, (up - item.height) * POINT, item.width * POINT, item.height * POINT, 0, 1)
