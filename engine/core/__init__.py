"""What everything rests on: counts, lengths and units, plausible ranges, and findings."""
