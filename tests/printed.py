"""A published figure, equal to whatever rounds to it."""


class Printed:
    """A number as a table prints it: `printed("0.808")` equals 0.8075 to 0.8085.

    figures  how many of its figures count, where trailing zeros only fill up ("1910" to three figures is 1905 to 1915)
    """

    def __init__(self, text: str, figures: int | None = None) -> None:
        self.text = text
        self.value = float(text)
        mantissa = text.lstrip("+-").split("e")[0]
        decimals = len(mantissa.partition(".")[2])
        self.half = 0.5 * 10.0**-decimals
        whole = mantissa.partition(".")[0].lstrip("0")
        if figures is not None and not decimals and len(whole) > figures:
            self.half = 0.5 * 10.0 ** (len(whole) - figures)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, (int, float)):
            return NotImplemented
        # A hair for figures that end in a five and for the arithmetic itself.
        return abs(float(other) - self.value) <= self.half * (1 + 1e-9) + 1e-12 * abs(self.value)

    __hash__ = None

    def __repr__(self) -> str:
        return f'printed("{self.text}") +- {self.half:g}'


def printed(text: str, figures: int | None = None) -> Printed:
    """The figure `text` as printed; see `Printed`."""
    return Printed(text, figures)
