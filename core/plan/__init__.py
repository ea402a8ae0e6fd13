"""From a project to its plan."""
