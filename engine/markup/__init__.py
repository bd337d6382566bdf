"""The parts of HTML and Markdown that words and drawings are set in."""
