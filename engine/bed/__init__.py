"""The virtual needle bed: it runs a program's steps, or refuses. It knows `machine` and no plan."""
