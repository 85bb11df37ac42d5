"""The press as its builder describes it: press file, model, load cases, load path."""
