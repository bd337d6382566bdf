"""Words for programs: every step as an instruction, read off the bed's states."""
