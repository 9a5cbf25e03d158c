"""A yarn of a plan, for the tests of the dye day."""

from palette.yarn.amounts import YarnAmount


def yarn(colour: str, mass_g: float, *, use="weft", hex="#5d733a", count="Nm 2/8") -> YarnAmount:
    """Give so much weft of one colour, or warp."""
    return YarnAmount(
        colour=colour,
        hex=hex,
        use=use,
        count=count,
        tex=250.0,
        picks=100,
        starts=1,
        net_length_m=mass_g * 4,
        length_m=mass_g * 4,
        mass_g=mass_g,
    )
