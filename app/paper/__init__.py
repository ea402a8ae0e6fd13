"""The plan set on paper: PDF pages and pictures, made without a screen."""
