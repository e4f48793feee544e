"""What a golfer practises, in which order, what is told of it, and when a target is met."""
