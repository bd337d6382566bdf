"""Bodies and sizes: charts, measures worked out from them, and a look across the sizes."""
