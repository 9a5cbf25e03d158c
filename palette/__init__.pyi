from .errors import LeafweftError as LeafweftError
from .photo.photo import Photo as Photo
from .photo.reading import read_photo as read_photo
from .swatches.palette import Palette as Palette
from .swatches.palette import Swatch as Swatch
from .swatches.extraction import extract as extract
from .stripes.plan import Stripe as Stripe
from .stripes.plan import StripePlan as StripePlan
from .stripes.planning import plan_stripes as plan_stripes
from .stripes.reading import read_cloth as read_cloth
from .loom.warp import Warp as Warp
from .cloth.woven_colour import woven_colour as woven_colour
from .yarn.amounts import YarnAmount as YarnAmount
from .yarn.planning import yarn_amounts as yarn_amounts
from .plans.plan import Plan as Plan

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
    "read_cloth",
    "read_photo",
    "woven_colour",
    "yarn_amounts",
]
