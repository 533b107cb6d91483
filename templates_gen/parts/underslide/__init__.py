"""The underslide: a thin lining pressed to three facets, in which the stick rests."""
