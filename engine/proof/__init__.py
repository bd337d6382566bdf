"""Every size through the bed: the proof, the yarn it took, advice, and what is found at the end."""
