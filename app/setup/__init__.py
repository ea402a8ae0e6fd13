"""The first start: gives the project its own environment, `.venv`, and goes on in it.

start.py        which way to go: straight on, or set up and then on as a child process
environment.py  where the environment is, and the stamps that say what is in it
make.py         makes it, under a lock
pip.py          runs pip and turns its complaints into one sentence
lock.py         one set-up at a time
child.py        a child process that gets our signals and gives us its exit code

Only the standard library, and little of it: every start of the program passes through here.
"""
