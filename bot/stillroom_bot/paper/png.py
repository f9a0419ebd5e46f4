"""A label as a picture for the chat."""

from __future__ import annotations

from io import BytesIO

from ..places import Unavailable
from .fonts import font_file
from .layout import Layout, Text

DOTS = 300 / 25.4
"""Dots a millimetre: 300 an inch, as label printers have them or finer."""
EDGE = 2.0
"""mm of grey round the label, so that its own edge can be seen in the chat."""


def draw_png(layout: Layout) -> bytes:
    """The picture.  Raises Unavailable where Pillow is not installed."""
    try:
        from PIL import Image, ImageDraw, ImageFont
    except ImportError:
        raise Unavailable("A picture of a label needs the package Pillow, which is not installed.") from None

    def dots(mm: float) -> int:
        return round(mm * DOTS)

    page = Image.new("L", (dots(layout.width + 2 * EDGE), dots(layout.height + 2 * EDGE)), 205)
    pen = ImageDraw.Draw(page)
    pen.rounded_rectangle((dots(EDGE), dots(EDGE), dots(EDGE + layout.width), dots(EDGE + layout.height)),
                          dots(1.5), fill=255)
    for item in layout.items:
        x, y = dots(item.x + EDGE), dots(item.y + EDGE)
        if isinstance(item, Text):
            font = ImageFont.truetype(str(font_file(item.bold)), item.size * DOTS)
            pen.text((x, y), item.text, fill=255 if item.white else 0, font=font, anchor="ls")
        else:
            pen.rectangle((x, y, x + dots(item.width), y + dots(item.height)), fill=0)
    out = BytesIO()
    page.save(out, "PNG", optimize=True, dpi=(300, 300))
    return out.getvalue()
