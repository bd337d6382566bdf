"""Text to pattern: nodes that remember their place, and every finding with its remedy."""
