"""The machine's own vocabulary: needles, steps, and what the bed notes of them."""
