"""Labels: what was made, put on paper.

``label`` is what stands on one; ``filling`` finds it from a kept spec or an answer; ``layout`` sets it in
millimetres, and ``png`` and ``pdf`` draw the same layout.  The drawing libraries are imported when a label is
asked for, and a sentence says so where one is missing.
"""
