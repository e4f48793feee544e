"""How the golfer is told: tones and the big screen."""
