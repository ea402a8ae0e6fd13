"""The first start, the command line and the runner of the tests."""
