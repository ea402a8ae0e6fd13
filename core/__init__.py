"""What Grainfold computes: project in, plan out. No Qt, no screen; millimetres, degrees, newtons, kilograms."""

__version__ = "0.1.0"
