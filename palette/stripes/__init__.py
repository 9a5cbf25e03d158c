"""A palette and a length to stripes in whole picks."""
