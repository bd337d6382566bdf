"""What differs between two states of a pattern, and which input moved it: values to values."""
