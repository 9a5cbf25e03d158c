"""Groups to a palette of swatches with shares."""
