"""Yarn amounts to dye-bath figures and fibre blends."""
