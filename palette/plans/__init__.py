"""A brief and a photograph to one whole plan, and the files it is kept in."""
