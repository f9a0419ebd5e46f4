"""What an update is, and what is planned for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from telegram import CallbackQuery, ChatMember, Message, Update
from telegram.constants import ChatType
from telegram.ext import (
    Application,
    CallbackQueryHandler,
    ChatMemberHandler,
    CommandHandler,
    ContextTypes,
    InlineQueryHandler,
    MessageHandler,
    TypeHandler,
    filters,
)

from ..reply import Reply
from . import buttons, metrics
from .access import Guests
from .addressing import question_of
from .cards import cards_for
from .clerk import Clerk, Planner, Turn
from .commands import COMMANDS, Command, plain
from .desk import Desk, May
from .questions import spoken, turn_of
from .saying import Saying

Context = ContextTypes.DEFAULT_TYPE
ALLOWED = (Update.MESSAGE, Update.EDITED_MESSAGE, Update.CALLBACK_QUERY, Update.INLINE_QUERY, Update.GUEST_MESSAGE,
           Update.MY_CHAT_MEMBER)
EXPIRED = "That question has expired: please ask again."
NOT_YOURS = "Only the one who asked can choose here."
TOO_OFTEN = Reply("declined", "", "That is more than I answer in a minute.", ("Please go on a little later.",))
UNINVITED = "I serve invited chats only. Whoever runs this bot can add this chat: its number is {}."
EMPTY = Reply("declined", "", "What would you like to know?", ("Such as: /ask milk for 3 l of punch",))
TEXT_ONLY = Reply("declined", "", "I read text only: please type the question.")
UNKNOWN = Reply("declined", "", "I do not know that command.", ("/help lists those I know.",))

NEW = filters.UpdateType.MESSAGE
TYPED = NEW & ~filters.FORWARDED
ASKED = filters.Regex(r"^/ask\b")
INSIDE = (ChatMember.MEMBER, ChatMember.ADMINISTRATOR, ChatMember.RESTRICTED)


class Floor:
    """The planners, with what they share: the desk, who may ask, and the bot's own name."""

    def __init__(self, application: Application[Any, Any, Any, Any, Any, Any], desk: Desk, clerk: Clerk,
                 guests: Guests):
        self.bot, self.desk, self.clerk, self.guests = application.bot, desk, clerk, guests
        add, handle = application.add_handler, self._handle
        for command in COMMANDS:
            add(CommandHandler(command.name, handle(self._doing(command)), filters=TYPED))
        question = filters.TEXT & (~filters.COMMAND | filters.FORWARDED | ASKED)
        add(MessageHandler(NEW & question, handle(self.question)))
        add(MessageHandler(filters.UpdateType.EDITED_MESSAGE & question, handle(self.edit)))
        add(CallbackQueryHandler(handle(self.press)))
        add(InlineQueryHandler(handle(self.inline)))
        add(ChatMemberHandler(handle(self.membership), ChatMemberHandler.MY_CHAT_MEMBER))
        add(MessageHandler(NEW & filters.StatusUpdate.MIGRATE, self._carrying(self.migration)))
        private = NEW & filters.ChatType.PRIVATE
        add(MessageHandler(private & filters.COMMAND, handle(self._saying(UNKNOWN))))
        add(MessageHandler(private & ~filters.TEXT & ~filters.StatusUpdate.ALL, handle(self._saying(TEXT_ONLY))))
        add(TypeHandler(Update, handle(self.other)))

    async def question(self, update: Update) -> Turn | None:
        """A text: answer it, if it is meant for the bot."""
        message = update.message or update.edited_message
        assert message is not None
        text = question_of(message, self.bot.id, self.bot.username)
        if text is None:
            return None
        if not text.strip():
            return Turn((spoken(message, EMPTY),))
        command = plain(text) if message.forward_origin is None and update.message else None
        if command is not None:
            return await command.do(self.desk, message, "")
        (chat, number), user = await self.desk.place(message), message.from_user
        exchange = await self.desk.ask(chat, text, user, self._may(message))
        return turn_of(exchange, spoken(message, exchange.reply), chat, user.id if user else 0, text, number)

    async def edit(self, update: Update) -> Turn | None:
        """An edited text: its answer follows; one that had none is a new question."""
        message = update.edited_message
        assert message is not None
        (chat, number), user = await self.desk.place(message), message.from_user
        first = await self.desk.store.answers.get(chat, number)
        if first is None:
            return await self.question(update)
        text = question_of(message, self.bot.id, self.bot.username)
        if not text or text == first.text:
            return None
        exchange = await self.desk.ask_again(chat, text, first, user, self._may(message))
        where = spoken(message, exchange.reply).but(how="revise", old=first.messages)
        return turn_of(exchange, where, chat, user.id if user else 0, text, number)

    async def press(self, update: Update) -> Turn | None:
        """A pressed button: say its choice for the one who was asked, and put the answer in the question's place."""
        query = update.callback_query
        assert query is not None
        which = buttons.pressed(query.data)
        message = query.message if isinstance(query.message, Message) else None
        asked = await self.desk.store.buttons.get(which[0]) if which else None
        if which is None or message is None or asked is None or which[1] >= len(asked.choices) \
                or asked.chat != (await self.desk.place(message))[0]:
            return Turn((Saying("toast", query=query.id, headline=EXPIRED),))
        if asked.asker != query.from_user.id:
            return Turn((Saying("toast", query=query.id, headline=NOT_YOURS),))
        return await self._chosen(query, message, asked.choices[which[1]], asked)

    async def _chosen(self, query: CallbackQuery, message: Message, choice: str, asked: Any) -> Turn:
        exchange = await self.desk.choose(asked.chat, choice, asked, query.from_user, self._may(message, query))
        first = await self.desk.store.answers.get(asked.chat, asked.question)
        old = first.messages if first and message.message_id in first.messages else (message.message_id,)
        topic = message.message_thread_id if message.is_topic_message else None
        where = Saying("revise", message.chat.id, asked.question, topic, old=old)
        turn = turn_of(exchange, where, asked.chat, asked.asker, first.text if first else asked.text, asked.question)
        said = turn.sayings[0]
        if first is not None and said.kept is not None:
            said = said.but(kept={**said.kept, "before": first.before})
        return Turn((Saying("toast", query=query.id), said), turn.state, turn.asked, turn.more)

    async def inline(self, update: Update) -> Turn | None:
        """The bot's name in any chat: the answer as a card, by the asker's own settings; nothing is kept."""
        query = update.inline_query
        assert query is not None
        cards = await cards_for(self.desk, f"telegram:{query.from_user.id}", query.query)
        return Turn((Saying("cards", query=query.id, cards=cards),))

    async def other(self, update: Update) -> Turn | None:
        """A guest's message is answered as an inline query is; whatever else there may be is let pass."""
        message = update.guest_message
        if message is None or not message.guest_query_id:
            return None
        user = message.guest_bot_caller_user or message.from_user
        text = question_of(message, self.bot.id, self.bot.username) or ""
        cards = await cards_for(self.desk, f"telegram:{user.id}" if user else "", text)
        return Turn((Saying("guest", query=message.guest_query_id, cards=cards[:1]),))

    async def membership(self, update: Update) -> Turn | None:
        """Put into a group: a word of how to ask."""
        change = update.my_chat_member
        assert change is not None
        joined = change.new_chat_member.status in INSIDE and change.old_chat_member.status not in INSIDE
        if not joined or change.chat.type == "private":
            return None
        return Turn((Saying("send", change.chat.id, headline="Ask me for a measure: name me, or reply to me.",
                            body=("/help says more.",)),))

    async def migration(self, update: Update) -> Turn | None:
        """A group has become a supergroup, as both are told: what is kept of it goes along."""
        message = update.message
        assert message is not None
        old, new = message.migrate_from_chat_id or message.chat.id, message.migrate_to_chat_id or message.chat.id
        return Turn(more=(self.desk.moving(old, new),))

    async def _invited(self, update: Update) -> bool:
        """Is the user or the chat on the list, or the group that the chat was before?"""
        chat = update.effective_chat
        if self.guests.invited(update) or chat is None or chat.type != ChatType.SUPERGROUP:
            return self.guests.invited(update)
        was = await self.desk.store.moves.origin(f"telegram:{chat.id}")
        return was is not None and int(was.rpartition(":")[2]) in self.guests.allowed

    def _carrying(self, plan: Planner) -> Callable[[Update, Context], Any]:
        """A planner as the framework's handler."""
        async def handle(update: Update, context: Context) -> None:
            await self.clerk.carry(update, plan)

        return handle

    def _handle(self, plan: Planner) -> Callable[[Update, Context], Any]:
        """The same behind the door that keeps out whoever may not ask."""
        async def guarded(update: Update) -> Turn | None:
            if not await self._invited(update):
                return self._shown_out(update)
            manners = self.guests.patience(update)
            if manners == "ok":
                return await plan(update)
            metrics.refused.labels("too many").inc()
            return self._too_often(update) if manners == "told" else None

        return self._carrying(guarded)

    def _shown_out(self, update: Update) -> Turn | None:
        metrics.refused.labels("uninvited").inc()
        change, message = update.my_chat_member, update.message
        if change is not None and change.chat.type != "private" and change.new_chat_member.status in INSIDE:
            return Turn((Saying("leave", change.chat.id),))
        if update.callback_query is not None:
            return Turn((Saying("toast", query=update.callback_query.id),))
        if message is None or message.chat.type != "private":
            return None
        return Turn((spoken(message, Reply("declined", "", UNINVITED.format(message.chat.id))),))

    def _too_often(self, update: Update) -> Turn | None:
        if update.callback_query is not None:
            return Turn((Saying("toast", query=update.callback_query.id, headline=TOO_OFTEN.headline),))
        message = update.message
        if message is None or question_of(message, self.bot.id, self.bot.username) is None:
            return None
        return Turn((spoken(message, TOO_OFTEN),))

    def _may(self, message: Message, query: CallbackQuery | None = None) -> May:
        user = query.from_user if query else message.from_user

        async def may() -> str:
            return await self.guests.refusal(self.bot, message, user.id if user else 0)

        return may

    def _doing(self, command: Command) -> Planner:
        async def plan(update: Update) -> Turn | None:
            message = update.message
            assert message is not None
            _, _, payload = (message.text or "").partition(" ")
            if command.name == "forget":
                refused = await self._may(message)()
                if refused:
                    return Turn((spoken(message, Reply("declined", "", "Nothing is forgotten: " + refused)),))
            return await command.do(self.desk, message, payload.strip())

        return plan

    def _saying(self, reply: Reply) -> Planner:
        async def plan(update: Update) -> Turn | None:
            message = update.message
            assert message is not None
            return Turn((spoken(message, reply),))

        return plan
