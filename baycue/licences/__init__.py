"""What ships and what is installed beside it, under which licence: one list, made and read here."""
