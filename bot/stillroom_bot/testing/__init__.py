"""A bot to test a calculator with: a chat without any front end, and the Telegram bot against a server of its own.

``fixtures`` is a pytest plugin that comes with the distribution: ``kernel``, ``ask``, ``chat`` and ``telegram`` are
fixtures wherever Stillroom is installed.  What needs no chat is in ``stillroom.testing``.
"""

from .chat import FakeChat
from .telegram import FakeTelegram, Told

__all__ = ["FakeChat", "FakeTelegram", "Told"]
