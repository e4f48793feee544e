"""From a frame to the golfer's body landmarks."""
