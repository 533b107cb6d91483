"""Gather faults, so that all of them are reported at once."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.errors import Fault, raise_faults
from templates_gen.parameters.pattern import Pattern, Place


class Ledger:
    """The faults found so far, and the keys that are not reported again."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        #: keys and sections a fault has named; what one mistake caused is reported once
        self.reported: set[str] = set()

    def add(self, place: Place, key: str, problem: str, cure: str) -> None:
        """Note one fault.

        Args:
            place: the file and the line, if it is known.
            key: the key, or "" for the file itself.
            problem: what is wrong, with the value found.
            cure: what to do about it.
        """
        self.faults.append(Fault(place[0], place[1], key, problem, cure))
        self.reported.add(key)

    def settle(self, files: Sequence[str]) -> None:
        """Raise the faults, if there are any.

        Args:
            files: the order of the files in the report; any other comes last.

        Raises:
            InputError: holding every fault, from the top of each file down.
        """
        order = {file: i for i, file in reversed(list(enumerate(files)))}
        raise_faults(
            sorted(
                self.faults,
                key=lambda f: (order.get(f.file, len(order)), f.line is None, f.line or 0),
            )
        )


def fault_at(of: Pattern | str, key: str, problem: str, cure: str) -> Fault:
    """Make a fault that points at the line on which a pattern states a key.

    Args:
        of: the pattern, or only a file's name where there is no pattern.
        key: the parameter, ``ferrule.outer_width``, or "" for the whole file.
        problem: what is wrong, with the value found.
        cure: what to do about it.
    """
    if isinstance(of, str):
        return Fault(of, None, key, problem, cure)
    file, line = of.places.get(key, (of.identity.file, None))
    return Fault(file, line, key, problem, cure)
