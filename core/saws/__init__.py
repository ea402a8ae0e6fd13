"""The saws of a shop: profiles that a maker keeps, and their file form. `app.saws` is their store on the disk."""
