"""A dress rehearsal: the live bay with a clip for a camera and a recorder for an ear."""
