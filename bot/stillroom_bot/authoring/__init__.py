"""For who writes a plugin: ``stillroom plugin new`` begins one, ``stillroom plugin check`` looks it over.

The plugin runs in a process of its own (``child``), which tells line by line what it does and what it found, so that
one that never ends, or ends the process, is reported like any other fault.
"""
