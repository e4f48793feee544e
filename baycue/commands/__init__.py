"""What each command does, behind ``cli``."""
