"""Files made from a plan: JSON, CSV, SVG, DXF; and the safe way to write any file."""
