"""Stripes across a warp to what the eye will see."""
