"""What the still bay tells about the camera."""
