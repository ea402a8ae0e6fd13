"""Offcuts: what a maker keeps of one job for another. Values and rules; `app.offcuts` is the store of them."""
