"""From a few recordings to thresholds that a coach may take: a proposal, never a plan."""
