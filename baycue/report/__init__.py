"""What is written down about a scored recording: table, JSON, annotated clip."""
