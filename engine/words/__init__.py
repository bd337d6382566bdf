"""Words for programs: every step as a knitter is told it, read off the bed's states."""
