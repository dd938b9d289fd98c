"""Outputs that are worked out only for rows that are kept: most of the candidates drawn are thrown away."""


class Deferred(dict):
    """The outputs of a row, and a function that gives the others."""

    def __init__(self, outputs, others):
        super().__init__(outputs)
        self.others = others

    def __or__(self, more):
        return Deferred(dict(self) | more, self.others)


def complete(outputs):
    """All outputs of a row that is kept."""
    return dict(outputs) | outputs.others() if isinstance(outputs, Deferred) else outputs
