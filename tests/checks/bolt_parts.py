"""Bolt groups the tests of bolts start from."""

from structcheck.checks.basis import Basis, from_rated
from structcheck.checks.bolts import BoltGroup, BoltLoads, check_bolts
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import find_steel

BASIS = Basis()


def group(**keys):
    given_keys = {"name": "b", "size": "M16", "bolt_class": "8.8", "plate": 10.0, "steel": "S275"} | keys
    for key, find in (("size", find_size), ("bolt_class", find_class), ("steel", find_steel)):
        if isinstance(given_keys[key], str):
            given_keys[key] = find(given_keys[key])
    return BoltGroup(**given_keys)


def full(**keys):
    return group(**({"rows": 2, "columns": 2, "pitch": 60.0, "gauge": 80.0, "end": 35.0, "edge": 30.0} | keys))


def loads(shear=0.0, eccentricity=0.0, tension=0.0, basis=BASIS, **more):
    return from_rated(
        basis,
        lambda case, f: BoltLoads(case, shear * f, eccentricity, tension * f, **{k: v * f for k, v in more.items()}),
    )


def answer(part, loads_of, basis=BASIS):
    return {finding.check: finding for finding in check_bolts(part, loads_of, basis).findings}
