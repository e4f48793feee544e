"""Tests, named after the rooms they check."""
