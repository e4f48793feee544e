"""What a coach asks about a swing, one measure a file."""
