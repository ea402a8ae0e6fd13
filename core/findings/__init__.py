"""What the plan has to say about saw and sheets, each with its number and its ways out."""
