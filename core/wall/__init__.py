"""What the wall has to say about the shelves on it: its shape, what is hidden in it, and what hangs too near.

`core.wall.findings` gathers it; each other module answers one question of it.
"""
