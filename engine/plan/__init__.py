"""What goes onto an edge, counted: bands, holes, collars, ribs, pockets, ways on and off."""
