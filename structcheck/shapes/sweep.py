"""Many sizes at once: sections of one shape gathered into one object whose fields are arrays."""

from collections.abc import Iterable
from dataclasses import fields

import numpy as np

from structcheck.shapes.section import Section
from structcheck.shapes.shape import Shape


def gathered(sections: Iterable[Section]) -> list[tuple[np.ndarray, Shape]]:
    """(places, shape) for each kind of shape among the sections.

    places  where its sizes stand in the sequence given
    shape   one shape with arrays for dimensions; each property is an array in that order

    A shape that is not a plain set of dimensions, such as one welded from plates, is left alone.
    """
    kinds: dict[type, list[int]] = {}
    shapes = [section.shape for section in sections]
    for place, shape in enumerate(shapes):
        kinds.setdefault(type(shape), []).append(place)
    found: list[tuple[np.ndarray, Shape]] = []
    for kind, places in kinds.items():
        names = [field.name for field in fields(kind)]
        rows = np.array([[getattr(shapes[place], name) for name in names] for place in places], dtype=float)
        found.append((np.array(places), kind(*rows.T)))
    return found
