"""From frames and hands to the direction of the shaft."""
