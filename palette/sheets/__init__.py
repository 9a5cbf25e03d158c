"""Any of the above to the files people read; the only user of matplotlib."""
