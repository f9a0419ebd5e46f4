"""A loopback server that speaks the Telegram Bot API, for tests of an unmodified bot.

    async with FakeBotApi() as api:
        application = Application.builder().token(api.token).base_url(api.base_url).build()
        mara = api.user("Mara")
        chat = api.private(mara)
        await chat.say("75 g of what?")
        reply = await chat.next_reply()

Where to look: `api` and `chat` are what a test uses, `faults` what it can break, `methods` what the bot
can call. Limits cite core.telegram.org/bots/api; error sentences are from memory of the published server.

Not imitated: how exactly the server counts floods, Markdown parse modes, inline messages after they were chosen,
channels, administrators' rights, albums and other media, business messages, polls, payments,
migration of groups, age limits of updates and edits.
"""

from __future__ import annotations

from .api import FakeBotApi
from .chat import Chat
from .faults import Faults
from .reply import Asked, Reply, Said
from .server import Call
from .webhook import Delivery
from .world import User

__all__ = ["Asked", "Call", "Chat", "Delivery", "FakeBotApi", "Faults", "Reply", "Said", "User"]
