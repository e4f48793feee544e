"""One file a voice: its name, whom it is for, and its three tones."""
