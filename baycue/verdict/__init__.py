"""From measurements and targets to pass, fail or too close to call."""
