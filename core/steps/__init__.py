"""Steps: for each pass of the saw, what a maker does so that no sheet is spoiled."""
