"""What a maker may ask of a bow's weight: plausible figures, and levers there are."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.bench.weigh.aim import Target
from templates_gen.bench.weigh.levers import NUMBERS, WORDS
from templates_gen.errors import Fault, InputError
from templates_gen.parameters.words import near, plain

#: No bow of any family, a child's or a double bass's, is lighter or heavier (g), or balances
#: nearer to its ferrule or farther from it (mm). From memory: common practice, no source.
MASS, BALANCE = (20.0, 250.0), (50.0, 350.0)
#: So much of a mistaken name is repeated: the message fits on a line.
_REPEATED = 20


def asked(mass: float | None, balance: float | None, move: str | None) -> tuple[Target, list[str]]:
    """What is wanted, and what may move for it.

    Args:
        mass: g.
        balance: mm from the ferrule's front in play.
        move: keys parted by commas; None where none are named.

    Raises:
        InputError: everything that cannot be asked for, at once.
    """
    target = Target(mass, balance)
    faults = _implausible("--target-mass", mass, MASS, "g")
    faults += _implausible("--target-balance", balance, BALANCE, "mm")
    keys = [key for key in (word.strip() for word in (move or "").split(",")) if key]
    if move is not None and not keys:
        cure = "name what may, or leave --move out"
        faults.append(Fault("--move", None, "", "names nothing that may move", cure))
    elif move is not None and not target.asked:
        cure = "add --target-mass or --target-balance"
        faults.append(Fault("--move", None, "", "there is nothing to reach", cure))
    faults += _unknown(keys)
    if faults:
        raise InputError(faults)
    return target, list(dict.fromkeys(keys))


def named(move: Sequence[str]) -> list[str]:
    """The levers named, each once.

    Raises:
        InputError: a key that is no lever.
    """
    faults = _unknown(move)
    if faults:
        raise InputError(faults)
    return list(dict.fromkeys(move))


def _implausible(
    option: str, value: float | None, span: tuple[float, float], unit: str
) -> list[Fault]:
    low, high = span
    if value is None or low <= value <= high:
        return []
    problem = f"{value:g} {unit} is no bow's"
    return [Fault(option, None, "", problem, f"state {plain(low)} to {plain(high)} {unit}")]


def _unknown(keys: Sequence[str]) -> list[Fault]:
    levers = (*WORDS, *NUMBERS)
    return [_no_lever(key, levers) for key in dict.fromkeys(keys) if key not in levers]


def _no_lever(key: str, levers: Sequence[str]) -> Fault:
    (like,) = near(key, levers, alike=0.0)
    seen = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in key)
    short = seen if len(seen) <= _REPEATED else seen[: _REPEATED - 1] + "…"
    return Fault("--move", None, short, "no lever", f"nearest is {like}")
