"""Photograph files to counted colours."""
