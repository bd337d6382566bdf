"""The pattern as its designer wrote it: immutable, every value checked, every name resolved."""
