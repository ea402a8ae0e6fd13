"""The rack: the offcuts kept of all projects, in the window. `app.offcuts` is their store on the disk."""
