"""The bot on Telegram: every private text is a question, and so is a group's that names the bot.

An update's way, by polling or by webhook:

    inlet or webhook -> ordering -> handlers -> clerk -> (desk, reckoning, store) -> speaking -> limiter -> client

``inlet`` and ``webhook`` put an update into the store's inbox before Telegram may forget it.  ``ordering``
keeps each chat's updates in their order and lets no chat hold up another.  ``handlers`` decide what an
update is and plan what comes of it, ``addressing`` whether it is meant for the bot, ``access`` who may ask.
``desk`` is one exchange: the state in which a text is read, the reply, the state that is to be kept.
``clerk`` sees to it that what is planned happens once and is said at least once: a plan is data
(``saying``), kept with its effect in one transaction.  ``speaking`` is the only file that speaks to a chat,
with ``patience``.  ``errors`` and ``logging`` see to it that neither token nor texts reach a log;
``metrics`` counts; ``config`` is the table of what an operator sets; ``serving`` is the process.
"""
