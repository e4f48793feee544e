"""How right the program is: random synthetic swings, scored blind and compared with the truth."""
