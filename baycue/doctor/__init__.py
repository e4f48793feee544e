"""Is this machine fit for a session?  One small check a matter, each with what to do."""
