"""Every key that a source can hold, each declared once, in a table for each mapping."""
