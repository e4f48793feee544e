"""What is told where the session's process has died and cannot say so itself."""

CUT_OFF = (
    "the session ended by itself: no memory was left, it was ended from outside, or it failed; "
    "start the same command again within 20 minutes, and it goes on"
)
