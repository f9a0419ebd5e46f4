"""Times as people say them, in the chat's own time zone: days, hours, how long from now."""
