"""A swing seen again: slower, frame by frame, with what its targets measured, beside another."""
