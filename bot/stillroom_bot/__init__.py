"""From a plain question to a reply: reading, conversation, phrasing, and the front ends."""
