"""The parts of HTML and Markdown that words and drawings are set in; a designer's notes."""
