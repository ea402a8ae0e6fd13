"""The fold board's picture: shelves as solids with the sheet's own figure, folded by hand.

plan + pose -> scene (arrays, no OpenGL) -> renderer (`app.fold.gl`) -> QImage, painted on a plain widget.
"""
