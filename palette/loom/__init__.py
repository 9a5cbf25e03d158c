"""Width, sett and draft to a warp, a sley order, heddles and lifts."""
