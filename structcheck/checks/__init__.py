"""One file per thing a builder asks about: a part and its loads in, findings out."""
