"""getUpdates, setWebhook, deleteWebhook, getWebhookInfo."""

from __future__ import annotations

from ..errors import POLL_UNDER_WEBHOOK, conflict
from ..params import Json, Params
from ..webhook import Webhook
from ..world import World


def _allow(world: World, params: Params) -> None:
    world.pending.allow(params.objects("allowed_updates", "allowed_updates"))


async def get_updates(world: World, hook: Webhook, params: Params) -> list[Json]:
    """Long poll; raises 409 while a webhook is set or when a later poll takes over."""
    if hook.url:
        raise conflict(POLL_UNDER_WEBHOOK)
    _allow(world, params)
    timeout = max(0, params.number("timeout"))
    return await world.pending.fetch(params.number("offset"), params.number("limit", 100), timeout)


async def set_webhook(world: World, hook: Webhook, params: Params) -> bool:
    """Deliver to an address from now on; an empty address ends it."""
    url = params.text("url")
    if not url:
        return await delete_webhook(world, hook, params)
    hook.check(url, params.text("secret_token"))
    _allow(world, params)
    if params.flag("drop_pending_updates"):
        world.pending.clear()
    world.pending.interrupt(conflict("terminated by setWebhook request"))
    await hook.use(url, params.text("secret_token"), params.number("max_connections", 40))
    return True


async def delete_webhook(world: World, hook: Webhook, params: Params) -> bool:
    """Go back to polling; what waits is kept unless `drop_pending_updates` is set."""
    await hook.stop()
    if params.flag("drop_pending_updates"):
        world.pending.clear()
    return True


async def get_webhook_info(world: World, hook: Webhook, params: Params) -> Json:
    """State of the webhook; the address is empty while polling."""
    info: Json = {
        "url": hook.url,
        "has_custom_certificate": False,
        "pending_update_count": len(world.pending.entries),
        "allowed_updates": sorted(world.pending.allowed),
    }
    if hook.url:
        info |= {"max_connections": hook.max_connections, "ip_address": "127.0.0.1"}
        if hook.last_error:
            info |= {"last_error_date": hook.last_error[0], "last_error_message": hook.last_error[1]}
    return info
