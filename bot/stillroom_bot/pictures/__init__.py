"""Pictures where people would rather look: a batch's strength against its water or its time on ice, a plan's times.

``curve`` reckons points by the kernel and knows nothing of drawing; ``drawing`` alone knows matplotlib, which is
imported when a picture is asked for.
"""
