"""What Grainfold shows: command line, window and views. What there is to compute, `core` computes."""
