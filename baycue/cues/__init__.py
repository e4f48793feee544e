"""How the golfer is told: tones and the big screen."""

import os

# pygame greets on standard output when it is imported, unless told not to.
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
