"""One file a drill: its name, how it ends, what the golfer is told, and its cautions."""
