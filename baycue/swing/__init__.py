"""From poses and shaft readings to a swing and its checkpoints."""
