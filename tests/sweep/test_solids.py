"""Check that every pattern that passes ``check`` gives solids with the right sections and walls.

Only parts whose recipe differs from the starter's are built, each in a process of its own with a
time limit, so that a modeller that hangs or dies costs one case.
"""

from __future__ import annotations

import multiprocessing
import resource
import signal
from collections.abc import Iterable, Iterator

import pytest
from outside.maker import stated
from sweep.cases import FAMILIES, Changes, Starter, named, starter

from templates_gen import registry
from templates_gen.errors import in_one_line
from templates_gen.parameters import Pattern
from templates_gen.pipeline import solids

pytestmark = pytest.mark.kernel

#: Seconds of computing for one part, so that a busy machine costs none; and by the clock, for a
#: child that waits for ever.
LIMIT, WAIT = 180, 1800.0
#: Children are forked from a process that has loaded the modeller and built nothing: one forked
#: from this process, where other tests may have built, waits for ever for the modeller's threads,
#: which a fork does not take along.
CLEAN = multiprocessing.get_context("forkserver")
CLEAN.set_forkserver_preload(["cadquery", "templates_gen.pipeline.solids", "outside.maker"])
#: Cases that once gave no solid, or one that was not as drawn: family, key, value.
ONCE = (
    ("bass-french", "head.mortise_width_front", 3.0),
    ("bass-french", "frog.eye_diameter", 20.0),
    ("bass-french", "frog.flank_band", 10.0),
)


def changed_parts(s: Starter, p: Pattern) -> list[str]:
    """The parts that are built from other numbers than the starter's."""
    return [
        b.part
        for b in registry.builders()
        if (recipe := b.recipe(p)) is not None and recipe != b.recipe(s.pattern)
    ]


def _look(family: str, changes: Changes, part: str, answer) -> None:
    """Find what a solid shows and the checks do not, in a separate process."""
    resource.setrlimit(resource.RLIMIT_CPU, (LIMIT, LIMIT + 5))
    try:
        p = stated(family).with_many(changes)
        seen = solids.witnesses(p, together=False, parts={part})
        wrong = [r for r in solids.confirm(p, seen) if r.stops]
        answer.put("; ".join(f"{r.rule.id} {r.measured:g}, {r.limit:g}" for r in wrong))
    except Exception as e:
        answer.put(f"{type(e).__name__}: {in_one_line(e)}")


def solid_fault(family: str, changes: Changes, part: str) -> str:
    """What is wrong with one part's solid; "" if nothing is."""
    answer = CLEAN.SimpleQueue()
    child = CLEAN.Process(target=_look, args=(family, changes, part, answer))
    child.start()
    child.join(WAIT)
    if child.is_alive():
        child.kill()
        child.join()
        return f"not built in {WAIT:g} s by the clock"
    if child.exitcode == -signal.SIGXCPU:
        return f"not built in {LIMIT} s of computing"
    return answer.get() if not answer.empty() else f"the modeller ended with {child.exitcode}"


def faults(s: Starter, cases: Iterable[tuple[str, Changes]]) -> Iterator[str]:
    for name, changes in cases:
        p = s.pattern.with_many(changes)
        if registry.faults(p) or any(r.stops for r in s.judged(p)):
            continue
        try:
            parts = changed_parts(s, p)
        except Exception as e:
            yield f"{name}: {type(e).__name__}: {in_one_line(e)}"
            continue
        for part in parts:
            if fault := solid_fault(s.family, changes, part):
                yield f"{name}: {part}: {fault}"


@pytest.fixture(autouse=True, scope="module")
def modeller(tmp_path_factory):
    """The modeller, and a cache of its own for it."""
    pytest.importorskip("cadquery")
    patch = pytest.MonkeyPatch()
    patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
    yield
    patch.undo()


@pytest.mark.parametrize(("family", "key", "value"), ONCE)
def test_patterns_that_once_gave_invalid_solids(family, key, value):
    wrong = list(faults(starter(family), [(f"{key} = {value:g}", {key: value})]))
    assert not wrong, "\n".join(wrong)


def test_a_ridge_that_begins_over_the_face_gives_a_solid():
    """Once this gave no solid: there was a line of zero length between face and ridge."""
    s = starter("violin")
    cases = [case for case in s.tables() if case[0] == "ridge from 0"]
    assert not any(r.stops for r in s.judged(s.pattern.with_many(cases[0][1])))
    wrong = list(faults(s, cases))
    assert not wrong, "\n".join(wrong)


def test_facets_are_cut_along_a_measured_ridge():
    """Once the kernel cut nothing on either side of this ridge, and reported no error."""
    s = starter("cello")
    cases = [case for case in s.tables() if case[0] == "ridge"]
    assert cases
    wrong = list(faults(s, cases))
    assert not wrong, "\n".join(wrong)


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
def test_every_passing_pattern_gives_a_solid(family):
    s = starter(family)
    single = [*s.ends(), *s.words()]
    wrong = list(faults(s, [*((named(c), c) for c in single), *s.tables()]))
    assert not wrong, "\n".join(wrong)
