"""Faults put upon a real session, one by one: what the golfer is told, and what is lost."""
