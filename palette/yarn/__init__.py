"""Stripes and a warp to metres, grams and skeins."""
