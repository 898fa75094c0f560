"""What a cam's timing rests on, whether it is read off marks or off a degree wheel."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface


def timing_rests_on(a: Anatomy, w: str) -> tuple[Feature, ...]:
    """Sprocket, chain and guide, what stands between crank and cam, and the joints of them."""
    stack = [(h, part, name) for h in a.heads for part, name in (("head", "height"), ("head gasket", "thickness"))]
    stack += [
        (c, part, name) for c in a.cylinders for part, name in (("barrel", "height"), ("base gasket", "thickness"))
    ]
    between = () if a.pushrod else stack
    loop = [
        Surface(slot=f"engine/{part}", name=name)
        for part, name in (("chain", "length"), ("chain guide", "pad"))
        if a.has(f"engine/{part}")
    ]
    return (
        Surface(slot=f"{w}/sprocket", name="teeth"),
        *loop,
        *(Surface(slot=f"{place}/{part}", name=name) for place, part, name in between),
        Joint(place=w, name="sprocket"),
        Joint(place="engine", name="tensioner"),
        Joint(place="engine", name="direction"),
    )
