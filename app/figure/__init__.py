"""The figure seam by seam, in the sheet's place: what is lost, how well its sides match, and a better place."""
