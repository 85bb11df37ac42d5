"""Saint-Venant torsion by finite elements on a section's outline, independent of every formula."""

import numpy as np
from scipy.spatial import Delaunay, cKDTree
from skfem import BilinearForm, ElementTriP2, Functional, InteriorBasis, LinearForm, MeshTri, condense, solve
from skfem.helpers import dot, grad


@BilinearForm
def laplace(u, v, _):
    return dot(grad(u), grad(v))


@LinearForm
def twist(v, w):
    y, z = w.x
    return z * grad(v)[0] - y * grad(v)[1]


@Functional
def moment(w):
    y, z = w.x
    return y * y + z * z + y * grad(w["omega"])[1] - z * grad(w["omega"])[0]


def torsion_constant(polygons, size: float) -> float:
    """It of an outline, mm4, with triangles of about `size` mm and quadratic warping; from above as size shrinks."""
    basis = InteriorBasis(mesh(polygons, size), ElementTriP2())
    omega = solve(*condense(laplace.assemble(basis), twist.assemble(basis), D=np.array([0])))
    return float(moment.assemble(basis, omega=basis.interpolate(omega)))


def mesh(polygons, size: float) -> MeshTri:
    """Triangles that follow the outline: its sides divided, a triangular grid inside, what lies outside dropped."""
    edge = np.vstack([divided(polygon, size) for polygon in polygons])
    low, high = edge.min(axis=0), edge.max(axis=0)
    rows = np.arange(low[1], high[1], size * 3**0.5 / 2)
    grid = np.vstack(
        [
            np.column_stack(
                [
                    np.arange(low[0] + (k % 2) * size / 2, high[0], size),
                    0 * np.arange(low[0] + (k % 2) * size / 2, high[0], size) + z,
                ]
            )
            for k, z in enumerate(rows)
        ]
    )
    grid = grid[within(polygons, grid)]
    grid = grid[cKDTree(edge).query(grid)[0] > 0.6 * size]
    points = np.vstack([edge, grid])
    triangles = Delaunay(points).simplices
    corners = points[triangles]
    (a, b), (c, d) = (corners[:, 1] - corners[:, 0]).T, (corners[:, 2] - corners[:, 0]).T
    solid = np.abs(a * d - b * c) > 1e-9 * size**2
    keep = within(polygons, corners.mean(axis=1)) & solid
    used, new = np.unique(triangles[keep], return_inverse=True)
    return MeshTri(points[used].T.copy(), new.reshape(-1, 3).T.copy())


def divided(polygon, size: float) -> np.ndarray:
    """Points along a closed polygon no farther apart than half the size."""
    pieces = []
    for start, end in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        count = int(np.ceil(np.hypot(*(end - start)) / (0.5 * size)))
        pieces.append(
            start + (end - start) * np.linspace(0, 1, count, endpoint=False)[:, None] if count else start[None]
        )
    points = np.vstack(pieces)
    # Two ends of an arc of no length fall on one place.
    return points[np.hypot(*(points - np.roll(points, 1, axis=0)).T) > 1e-9 * size]


def within(polygons, points) -> np.ndarray:
    """Whether each point lies in the outer polygon and in no hole, by counting crossings."""
    inside = np.zeros(len(points), bool)
    for polygon in polygons:
        for (y_1, z_1), (y_2, z_2) in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
            if z_1 != z_2:
                crosses = (z_1 > points[:, 1]) != (z_2 > points[:, 1])
                inside ^= crosses & (points[:, 0] < (y_2 - y_1) * (points[:, 1] - z_1) / (z_2 - z_1) + y_1)
    return inside


def warping(polygons, size: float) -> tuple[float, float]:
    """Shear centre from the centroid along y, mm, and warping constant, mm6, of a section symmetric about y."""
    basis = InteriorBasis(mesh(polygons, size), ElementTriP2())
    omega = solve(*condense(laplace.assemble(basis), twist.assemble(basis), D=np.array([0])))
    field = basis.interpolate(omega)

    def integral(term) -> float:
        return float(Functional(lambda w: term(w["omega"], *w.x)).assemble(basis, omega=field))

    mean = integral(lambda o, y, z: o) / integral(lambda o, y, z: 1.0 + 0.0 * y)
    Iy = integral(lambda o, y, z: z * z)
    mixed = integral(lambda o, y, z: (o - mean) * z)
    return -mixed / Iy, integral(lambda o, y, z: (o - mean) ** 2) - mixed**2 / Iy
