"""The figure across each seam: what of it is lost, how far its grain steps aside, how well the two sides match.

seam_places(plan)                where each wrapping seam's two edges lie on their sheet
measured(face, sheet, place)     loss, direction of the grain, sideways step, match
both_sides(face, sheet, place)   the two sides laid edge to edge, as they meet when folded
better_places(...)               where else a net could lie, the best match of the seams the eye sees first
"""
