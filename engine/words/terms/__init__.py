"""The names and workings that findings print as well as pages: they stand below whatever finds."""
