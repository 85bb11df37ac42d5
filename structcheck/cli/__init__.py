"""The command line, one thin file for each command."""

import os

# Matrices of a press are small: a second thread of the linear algebra only waits, longest where other programs run.
# It is read when numpy is first imported; whoever sets it otherwise is left alone.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
