"""Packing: parts on bars and sheets at least cost, by exact search where it ends in time, with a bound where not.

    one_d   lengths from bars                        cut_bars(question)
    two_d   the most value from one sheet            best_sheet(question)
    pack    all rectangles on the fewest sheets      pack_all(question)
    process any of them in a process of its own that can be stopped

Nothing here knows of shelves: the parts are lengths and rectangles, every cut goes edge to edge.
"""
