"""What an update is, and what is done about it."""

from __future__ import annotations

from typing import Any

from telegram import Message, Update, User
from telegram.error import BadRequest
from telegram.ext import Application, CallbackQueryHandler, CommandHandler, ContextTypes, MessageHandler, filters

from ..reply import Reply
from ..store import Answered, Question
from . import buttons
from .addressing import question_of
from .commands import COMMANDS, Command
from .desk import Desk, Exchange, chat_key
from .sending import Keys, Spot, patiently, revise, send

Context = ContextTypes.DEFAULT_TYPE
ALLOWED = (Update.MESSAGE, Update.EDITED_MESSAGE, Update.CALLBACK_QUERY)
EXPIRED = "That question has expired: please ask again."
NOT_YOURS = "Only the one who asked can choose here."
EMPTY = Reply("declined", "", "What would you like to know?", ("Such as: /ask milk for 3 l of punch",))
TEXT_ONLY = Reply("declined", "", "I read text only: please type the question.")
UNKNOWN = Reply("declined", "", "I do not know that command.", ("/help lists those I know.",))

NEW = filters.UpdateType.MESSAGE
TYPED = NEW & ~filters.FORWARDED
ASKED = filters.Regex(r"^/ask\b")


def attach(application: Application[Any, Any, Any, Any, Any, Any], desk: Desk) -> None:
    """Give an application its handlers.  The first that fits an update has it."""
    application.bot_data["desk"] = desk
    for command in COMMANDS:
        application.add_handler(CommandHandler(command.name, _doing(command), filters=TYPED))
    question = filters.TEXT & (~filters.COMMAND | filters.FORWARDED | ASKED)
    application.add_handler(MessageHandler(NEW & question, on_question))
    application.add_handler(MessageHandler(filters.UpdateType.EDITED_MESSAGE & question, on_edit))
    application.add_handler(CallbackQueryHandler(on_press))
    private = NEW & filters.ChatType.PRIVATE
    application.add_handler(MessageHandler(private & filters.COMMAND, _saying(UNKNOWN)))
    application.add_handler(MessageHandler(private & ~filters.TEXT & ~filters.StatusUpdate.ALL, _saying(TEXT_ONLY)))


async def on_question(update: Update, context: Context) -> None:
    """A text: answer it, if it is meant for the bot."""
    message = update.effective_message
    assert message is not None
    text = question_of(message, context.bot.id, context.bot.username)
    if text is None:
        return
    if not text.strip():
        await send(context.bot, Spot.under(message), EMPTY)
        return
    desk: Desk = context.bot_data["desk"]
    exchange = await desk.ask(chat_key(message), text, _who(message.from_user))
    sent = await send(context.bot, Spot.under(message), exchange.reply, await _keys(desk, message, text, exchange))
    await _remember(desk, message, text, exchange, sent)


async def on_edit(update: Update, context: Context) -> None:
    """An edited text: its answer follows; one that had none is a new question."""
    message = update.effective_message
    assert message is not None
    desk: Desk = context.bot_data["desk"]
    first = await desk.store.answers.get(chat_key(message), message.message_id)
    text = question_of(message, context.bot.id, context.bot.username)
    if first is None:
        await on_question(update, context)
        return
    if not text or text == first.text:
        return
    exchange = await desk.ask_again(chat_key(message), text, first, _who(message.from_user))
    keys = await _keys(desk, message, text, exchange)
    sent = await revise(context.bot, Spot.under(message), first.messages, exchange.reply, keys)
    await _remember(desk, message, text, exchange, sent)


async def on_press(update: Update, context: Context) -> None:
    """A pressed button: say its choice for the one who was asked, and put the answer in the question's place."""
    query = update.callback_query
    assert query is not None
    desk: Desk = context.bot_data["desk"]
    which = buttons.pressed(query.data)
    message = query.message if isinstance(query.message, Message) else None
    asked = await desk.store.buttons.get(which[0]) if which else None
    if which is None or message is None or asked is None or which[1] >= len(asked.choices) \
            or asked.chat != chat_key(message):
        await _toast(update, EXPIRED)
        return
    if asked.asker != query.from_user.id:
        await _toast(update, NOT_YOURS)
        return
    await _toast(update, None)
    exchange = await desk.choose(asked.chat, asked.choices[which[1]], asked, _who(query.from_user))
    keys = await _open(desk, asked.chat, asked.asker, asked.question, asked.text, exchange)
    spot = Spot(message.chat.id, asked.question, message.message_thread_id if message.is_topic_message else None)
    first = await desk.store.answers.get(asked.chat, asked.question)
    old = first.messages if first and message.message_id in first.messages else (message.message_id,)
    sent = await revise(context.bot, spot, old, exchange.reply, keys)
    await desk.store.answers.moved(asked.chat, asked.question, sent, exchange.version)


async def _toast(update: Update, text: str | None) -> None:
    """Answer a press; one that is too old to be answered is no error."""
    query = update.callback_query
    assert query is not None
    try:
        await patiently(lambda: query.answer(text))
    except BadRequest as e:
        if "query is too old" not in str(e).lower():
            raise


async def _keys(desk: Desk, message: Message, text: str, exchange: Exchange) -> Keys:
    asker = message.from_user.id if message.from_user else 0
    return await _open(desk, chat_key(message), asker, message.message_id, text, exchange)


async def _open(desk: Desk, chat: str, asker: int, question: int, text: str, exchange: Exchange) -> Keys:
    """Buttons for the choices of a reply, kept in the store before anybody can press them."""
    choices = exchange.reply.buttons[:buttons.MOST]
    if not choices:
        return None
    asked = Question(chat, asker, question, text, choices, exchange.after.to_json())
    return buttons.keyboard(await desk.store.buttons.add(asked), choices)


def _who(user: User | None) -> str:
    """A person as the chat shows them."""
    return user.full_name if user else ""


async def _remember(desk: Desk, message: Message, text: str, exchange: Exchange, sent: tuple[int, ...]) -> None:
    if exchange.after.errand == "forget":
        return
    answered = Answered(message.message_id, sent, text, exchange.before.to_json(), exchange.version)
    await desk.store.answers.put(chat_key(message), answered)


def _doing(command: Command) -> Any:
    async def handle(update: Update, context: Context) -> None:
        message = update.effective_message
        assert message is not None
        await send(context.bot, Spot.under(message), await command.do(context.bot_data["desk"], message))

    return handle


def _saying(reply: Reply) -> Any:
    async def handle(update: Update, context: Context) -> None:
        message = update.effective_message
        assert message is not None
        await send(context.bot, Spot.under(message), reply)

    return handle
