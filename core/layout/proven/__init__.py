"""Layouts proven least: what a job takes from its sheets, what no layout can go below, and layouts worth trying.

model    what is known of a layout, in numbers and in one sentence
demand   a job as plain rectangles, and the bound from its wood
packed   the same rectangles through core.packing: an exact bound, and layouts
orders   layouts in bands, the nets laid down in many orders
aim      which of two layouts is better

The search itself, which looks at every candidate as a whole plan, is core.plan.least.
"""
