"""Random frames and loads for tests of laws; joints and supports are drawn so that most of them stand."""

from hypothesis import strategies as st

from structcheck.analysis.frame import (
    Frame,
    Joint,
    Member,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    SpreadOnMember,
    Spring,
    Support,
)


def numbers(low, high):
    """Floats of four figures, which keeps failing examples readable."""
    return st.floats(low, high).map(lambda value: float(f"{value:.4g}"))


vectors = st.tuples(*[numbers(-1.0, 1.0)] * 3)
forces = st.tuples(*[numbers(-1e4, 1e4)] * 3)
moments = st.tuples(*[numbers(-1e6, 1e6)] * 3)
pushes = st.tuples(*[numbers(-20.0, 20.0)] * 3)


@st.composite
def joints(draw, soft):
    """A rigid end, or one with springs or hinges about y and z; sometimes a rigid zone."""
    offset = draw(st.sampled_from([0.0, 0.0, 40.0, 75.0]))
    if not soft:
        return Joint(offset=offset)
    ways = st.sampled_from([0.0, 1e7, 1e9, float("inf")])
    slide = draw(st.sampled_from([float("inf"), float("inf"), 2e4]))
    return Joint(ry=draw(ways), rz=draw(ways), y=slide, offset=offset)


@st.composite
def frames(draw):
    """Three to five nodes in space, a chain of members through them and one or two more, one node built in."""
    count = draw(st.integers(3, 5))
    spots = st.tuples(*[st.integers(-4, 4).map(lambda k: 300.0 * k)] * 3)
    places = draw(st.lists(spots, min_size=count, max_size=count, unique=True))
    nodes = {f"n{k}": place for k, place in enumerate(places)}
    links = [(k, k + 1) for k in range(count - 1)] + [(count - 1, 0)]
    if count > 3 and draw(st.booleans()):
        links.append((0, 2))
    members = []
    for number, (start, end) in enumerate(links):
        area = draw(numbers(500.0, 8000.0))
        members.append(
            Member(
                f"m{number}",
                f"n{start}",
                f"n{end}",
                E=210000.0,
                G=draw(st.sampled_from([81000.0, 70000.0])),
                A=area,
                Iy=draw(numbers(1e5, 1e8)),
                Iz=draw(numbers(1e5, 1e8)),
                J=draw(numbers(1e4, 1e7)),
                Asy=draw(st.sampled_from([None, 0.4 * area])),
                Asz=draw(st.sampled_from([None, 0.6 * area])),
                angle=draw(st.sampled_from([0.0, 0.0, 0.7, -2.0])),
                # One soft end for each member at the most: two could leave it loose.
                at_start=draw(joints(soft=draw(st.booleans()))),
                at_end=draw(joints(soft=False)),
            )
        )
    supports = [Support("n0", "x y z rx ry rz"), Support("n2", "y z", {"x": draw(numbers(1e3, 1e6))})]
    springs = [Spring("s0", "n1", f"n{count - 1}", {"x": 2e3, "along": 5e3, "ry": 1e8})] if draw(st.booleans()) else []
    return Frame(nodes, members, supports, springs)


@st.composite
def loads_on(draw, frame, most=4):
    """One case of loads of every kind on a frame."""
    found = []
    lengths = {
        member.name: sum((a - b) ** 2 for a, b in zip(frame.nodes[member.start], frame.nodes[member.end], strict=True))
        ** 0.5
        for member in frame.members
    }
    for _ in range(draw(st.integers(1, most))):
        member = draw(st.sampled_from(sorted(lengths)))
        axes = draw(st.sampled_from(["global", "local"]))
        shares = sorted(draw(st.tuples(*[st.integers(0, 20)] * 2).filter(lambda pair: pair[0] != pair[1])))
        start, end = (lengths[member] * share / 20 for share in shares)
        match draw(st.sampled_from(["node", "point", "spread", "weight"])):
            case "node":
                found.append(NodeLoad(draw(st.sampled_from(sorted(frame.nodes))), draw(forces), draw(moments)))
            case "point":
                found.append(PointOnMember(member, start, draw(forces), draw(moments), axes))
            case "spread":
                to = draw(st.one_of(st.none(), pushes))
                found.append(SpreadOnMember(member, draw(pushes), start, end, to, axes))
            case "weight":
                found.append(SelfWeight(direction=draw(st.sampled_from([(0, 0, -1), (1, 0, -2)]))))
    return found


@st.composite
def loaded(draw, cases=1):
    """A frame and so many load cases."""
    frame = draw(frames())
    return frame, {f"case {k}": draw(loads_on(frame)) for k in range(cases)}
