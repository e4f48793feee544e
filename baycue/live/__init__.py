"""Ball after ball: from a camera that never stops to verdicts on a big screen."""
