"""Drawings as device-free lists: lines, areas, dimensions and texts in millimetres with layer names."""
