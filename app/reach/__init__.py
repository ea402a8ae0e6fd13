"""Everything can be found and reached: the list of actions, help, the guide, what screen readers hear of the boards."""
