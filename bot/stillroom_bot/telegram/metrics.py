"""Counts of what the bot does, for Prometheus where somebody listens; never a text, a name or a chat."""

from __future__ import annotations

from prometheus_client import Counter, Gauge, Histogram, start_http_server

replies = Counter("stillroom_replies", "Replies by what they are: answered, asks, declined, noted", ["status"])
errors = Counter("stillroom_errors", "What broke, by the kind of error", ["kind"])
overdue = Counter("stillroom_overdue", "Questions that took too long and were stopped")
refused = Counter("stillroom_refused", "Updates that were not answered, by why: uninvited, too many", ["why"])
updates = Counter("stillroom_updates", "Updates handed over by Telegram")
repeated = Counter("stillroom_updates_repeated", "Updates that Telegram handed over again")
latency = Histogram("stillroom_seconds", "Seconds from an update's turn to its answer being sent",
                    buckets=(.01, .025, .05, .1, .25, .5, 1, 2.5, 5, 10, 60))
waiting = Gauge("stillroom_inbox", "Updates that are not answered yet")
workers = Gauge("stillroom_workers", "Processes that serve this bot")


def listen(host: str, port: int) -> None:
    """Show the counts at ``http://host:port/metrics``.  Raises OSError where the port is taken."""
    start_http_server(port, host)
