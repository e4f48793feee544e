"""Every swing kept: its film, all that was found in it, and the log of all swings."""
