"""One file a kind of camera that has addresses: which, and how one is opened."""
