"""What a job takes, each quantity with the rule it comes from."""
