"""Before the first ball: does the picture show what is needed, and if not, what to move."""
