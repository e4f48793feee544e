"""Where frames come from: recordings now, cameras behind the same seam later."""
