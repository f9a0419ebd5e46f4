"""The bot on Telegram: every private text is a question, and so is a group's that names the bot.

An update's way:

    application -> ordering -> handlers -> desk -> (conversation, store) -> sending -> formatting

``ordering`` keeps each chat's updates in their order and lets no chat hold up another.  ``handlers``
decide what an update is, ``addressing`` whether it is meant for the bot.  ``desk`` is one exchange: the
state in which a text is read, the reply, the state that is kept.  ``sending`` is the only file that
speaks to a chat.  ``errors`` and ``logging`` see to it that neither token nor texts reach a log.
"""
