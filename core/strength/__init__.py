"""What a frame may carry, as an estimate: published rules for screws, statics of the frame, and what governs.

`core.strength.load` puts it together for a shelf; each other module answers one question of it.
"""
