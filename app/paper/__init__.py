"""The cut sheet on paper: PDF pages and pictures, made without a screen."""
