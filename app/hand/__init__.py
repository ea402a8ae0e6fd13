"""The hand: one grammar of dragging for every board.

Press and move: the value under the pointer follows, whole fraction by whole fraction (1/16 in or 1 mm, coarser where a
pixel is wider), and is caught by what is near. Shift: a tenth of the way, to 1/64 in or 0.1 mm, and nothing catches.
A digit opens the value for typing, Enter takes it, Escape puts everything back as it was. Arrow keys step, with or
without a drag; a letter chooses a handle. Each drag is one undo step, and while it goes on nothing moves but what must.

    Handle, Grip   what can be taken hold of: its numbers, and the project that comes of changing them
    Drag           one drag on the store, from the press to `release` or `cancel`
    Hand           both on a widget: gives `press`, `move`, `release`, `key` and `paint`
    size_handle    a handle for a shelf's length, depth or height, for any board
"""
