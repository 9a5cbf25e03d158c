from palette.errors import LeafweftError as LeafweftError
from palette.photo.photo import Photo as Photo
from palette.photo.reading import read_photo as read_photo
from palette.swatches.palette import Palette as Palette
from palette.swatches.palette import Swatch as Swatch
from palette.swatches.extraction import extract as extract
from palette.stripes.plan import Stripe as Stripe
from palette.stripes.plan import StripePlan as StripePlan
from palette.stripes.planning import plan_stripes as plan_stripes
from palette.loom.warp import Warp as Warp
from palette.cloth.woven_colour import woven_colour as woven_colour
from palette.yarn.amounts import YarnAmount as YarnAmount
from palette.yarn.planning import yarn_amounts as yarn_amounts
from palette.plans.plan import Plan as Plan

__all__ = [
    "LeafweftError",
    "Palette",
    "Photo",
    "Plan",
    "Stripe",
    "StripePlan",
    "Swatch",
    "Warp",
    "YarnAmount",
    "extract",
    "plan_stripes",
    "read_photo",
    "woven_colour",
    "yarn_amounts",
]
