"""Layout: where each net lies on which sheet, and which frame parts come from what is left."""
