"""Counted colours to groups; the only user of scikit-learn."""
