"""Everything that calls OpenGL. Imported after the window has been painted, and never by a test of arrays."""
