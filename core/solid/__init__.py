"""Solids for the preview: panels, plies, the boxes of the frame, and picking them with a ray."""
