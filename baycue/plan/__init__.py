"""The coach's plan for one student: YAML in, checked targets out."""
