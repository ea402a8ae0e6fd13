"""Pictures worth showing: the shelves as they will be, still, turning, or as a model, drawn without a screen."""
