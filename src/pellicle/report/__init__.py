"""Text, charts and sheets: renderings of answers. A view formats; it computes nothing and judges nothing.

Terminal page, JSON document and paper sheet show the same frozen answer in the same order, that of the work: the
sentence, what to weigh, the cure, the weight to pull at, the checks, where it all comes from.
"""
