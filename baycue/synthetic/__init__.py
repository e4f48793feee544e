"""Invented golfers and bays, rendered to clips whose truth is exactly known."""
