"""The type of labels: DejaVu Sans, which has the letters of most of the world's Latin, Greek and Cyrillic names.

The files come with matplotlib (free licence, Bitstream Vera's), which is looked up but not imported for them.
"""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from ..places import Unavailable

REGULAR, BOLD = "DejaVuSans.ttf", "DejaVuSans-Bold.ttf"
MEASURED_AT = 200


def font_file(bold: bool) -> Path:
    """The font's file.  Raises Unavailable where matplotlib is not installed."""
    spec = find_spec("matplotlib")
    folder = Path(spec.origin).parent if spec and spec.origin else Path()
    path = folder / "mpl-data" / "fonts" / "ttf" / (BOLD if bold else REGULAR)
    if not spec or not path.is_file():
        raise Unavailable("Labels need the fonts that come with the package matplotlib, which is not installed.")
    return path


def drawable(text: str) -> str:
    """A text without the signs that the type has no letter for, and without those that only turn it round."""
    known = _letters()
    return " ".join("".join(c for c in text if ord(c) in known or c.isspace()).split())


@cache
def _letters() -> frozenset[int]:
    try:
        from reportlab.pdfbase.ttfonts import TTFontFile
    except ImportError:
        raise Unavailable("Labels need the package reportlab, which is not installed.") from None
    signs = set(TTFontFile(str(font_file(False))).charToGlyph) & set(TTFontFile(str(font_file(True))).charToGlyph)
    return frozenset(c for c in signs if c > 31 and not 0x200B <= c <= 0x206F and not 0x7F <= c <= 0x9F)


@cache
def _metrics(bold: bool) -> object:
    try:
        from PIL import ImageFont
    except ImportError:
        raise Unavailable("Labels need the package Pillow, which is not installed.") from None
    return ImageFont.truetype(str(font_file(bold)), MEASURED_AT)


def width_of(text: str, bold: bool = False) -> float:
    """The width of a text at size 1 (in whatever unit the size will have), as a PDF sets it: letter by letter."""
    return sum(_advance(c, bold) for c in text)


@cache
def _advance(letter: str, bold: bool) -> float:
    return float(_metrics(bold).getlength(letter)) / MEASURED_AT  # type: ignore[attr-defined]
