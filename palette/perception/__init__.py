"""Colour numbers as the eye ranks them; the only user of colour-science."""
