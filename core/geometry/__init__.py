"""The geometry of a wrapped piece: seams, the net as a tree, folding."""
