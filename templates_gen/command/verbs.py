"""What each verb of the command does and says. Part of ``cli``, which calls it."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Iterable
from pathlib import Path as FilePath

from templates_gen import registry
from templates_gen.command.common import (
    busy,
    geometry_errors_as_input,
    judged,
    read_all,
    shop_templates,
)
from templates_gen.command.text import table, wrapped
from templates_gen.errors import EnvironmentFault, Fault, InputError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import judging, selection

MOVING = "`templates-gen scale FILE --set …` moves a number with all that follows it"


def new(args: argparse.Namespace) -> int:
    """Write a starter file; never over one that is there."""
    from templates_gen.parameters.starter import called_as, starter
    from templates_gen.shop.starter import STARTER

    shop = args.family == "shop"
    target = FilePath(args.output)
    name = args.name or called_as(target.stem)
    text = STARTER if shop else starter(args.family, registry.SCHEMA, name)
    try:
        with target.open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        fault = Fault(args.output, None, "", "already there", "name another file with -o")
        raise InputError([fault]) from None
    except FileNotFoundError:
        problem = f"cannot be written: there is no folder {target.parent}"
        fault = Fault(args.output, None, "", problem, "make the folder first, or name another")
        raise InputError([fault]) from None
    except OSError as e:
        raise EnvironmentFault(f"{args.output}: cannot be written ({e.strerror})") from e
    then = f"templates-gen check {args.output}"
    if shop:
        then = "state your own kerf and cutters in it, then templates-gen draw FILE -o DIR"
        then += f" --shop {args.output}"
    print(wrapped(f"wrote {args.output}; next: ", then, 0))
    return 0


def check(args: argparse.Namespace) -> int:
    """Judge every file; nothing is told before all are judged."""
    if args.json and len(args.files) > 1:
        fault = Fault("--json", None, "", "takes one file", "call it once for each file")
        raise InputError([fault])
    patterns, shop = read_all(args.files, args.shop)
    status, told = 0, []
    for file, p in zip(args.files, patterns, strict=True):
        checked = judged(p, shop, args.paper)
        if args.solid:
            from templates_gen.pipeline import rendering

            with geometry_errors_as_input(p, checked), busy(f"putting {p.identity.name} together"):
                checked += rendering.confirmed(p, rendering.witnesses(p, together=True))
        ok = not judging.stops(checked)
        status = max(status, 0 if ok else 1)
        if args.json:
            checks = [judging.check_json(c) for c in checked]
            told.append(json.dumps({"file": file, "ok": ok, "checks": checks}, indent=1))
            continue
        told.append(f"{file}: {p.identity.name}, {p.family.instrument}")
        told += filter(None, [table(checked, brief=args.brief)])
        if any(c.result.verdict == "fail" for c in checked):
            told.append(f"  {MOVING}")
        told += [wrapped("note: ", warning, 2) for warning in p.warnings]
        told.append(f"  {judging.verdict(checked)}")
    print("\n".join(told))
    return status


def list_templates(args: argparse.Namespace) -> int:
    """Name the templates, with the size of what is cut."""
    from templates_gen.drawing.view import cut_size
    from templates_gen.pipeline.rendering import views

    (p,), shop = read_all([args.file], args.shop)
    rows = []
    for t in selection.chosen(p, (), shop_templates(shop)):
        with geometry_errors_as_input(p):
            wide, high = cut_size(views(p, t))
        rows.append(
            {
                "name": t.name,
                "part": t.part,
                "width_mm": wide,
                "height_mm": high,
                "purpose": t.purpose,
            }
        )
    if args.json:
        print(json.dumps({"file": args.file, "templates": rows}, indent=1))
        return 0
    for row in rows:
        print(f"{row['name']:<24} {row['width_mm']:6.1f} × {row['height_mm']:.1f} mm")
        print(wrapped("", str(row["purpose"]), 4))
    return 0


def draw(args: argparse.Namespace) -> int:
    """Write the templates of every file, or none."""
    from templates_gen.command.draw import draw as drawn

    return drawn(args)


def explain(args: argparse.Namespace) -> int:
    """Tell what a parameter or a check is, of the bow or of the shop."""
    from templates_gen.command.explain import explain as told

    return told(args)


def scale(args: argparse.Namespace) -> int:
    """Write a pattern for another instrument, or with one value moved and all that follows it."""
    from templates_gen.bench.scale import file as scale_file
    from templates_gen.bench.scale import table as scale_table
    from templates_gen.bench.scale.scaling import scale as scaled_to
    from templates_gen.bench.scale.stated import parsed

    if args.to is None and not args.set:
        fault = Fault(
            "scale", None, "", "nothing to scale to", "state --to FAMILY or --set KEY=VALUE"
        )
        raise InputError([fault])
    p = judging.read(args.file)
    scaled = scaled_to(p, args.to, parsed(args.set), args.name)
    scale_file.write(scaled, args.output)
    made = judging.read(args.output)
    if args.json:
        told = {"file": args.file, "output": args.output, **scale_table.as_data(scaled)}
        print(json.dumps(told, indent=1))
    else:
        _tell(args, made, scale_table.table(scaled), scale_table.untold(scaled, made.warnings))
        checked = judging.check(made)
        print(
            *filter(None, [table(checked, brief=True)]), f"  {judging.verdict(checked)}", sep="\n"
        )
    return 1 if scaled.failing else 0


def _tell(args: argparse.Namespace, made: Pattern, told: str, notes: Iterable[str]) -> None:
    """Which file became which, what is told of it, and what else is to be noted."""
    what = f"{made.identity.name}, {made.family.instrument}"
    print(wrapped("", f"{args.file} → {args.output}: {what}", 0))
    print(told)
    for note in notes:
        print(wrapped("note: ", note, 2))


def weigh(args: argparse.Namespace) -> int:
    """Weigh a bow before it is made, and tell what each change would do."""
    from templates_gen.bench.weigh import table as weigh_table
    from templates_gen.bench.weigh.levers import levers
    from templates_gen.bench.weigh.reach import reach_target
    from templates_gen.bench.weigh.target import parse_target
    from templates_gen.bench.weigh.weighing import weigh as weighed

    target, keys = parse_target(args.target_mass, args.target_balance, args.move)
    p = judging.read(args.file)
    with geometry_errors_as_input(p), busy(f"weighing {p.identity.name}"):
        w = weighed(p)
        found = reach_target(w, target, keys) if target.stated else None
    status = 0 if found is None or (found.met and found.sound) else 1
    if args.json:
        told = {"file": args.file, **weigh_table.as_data(w, levers(w))}
        if found is not None:
            told["target"] = weigh_table.reached_data(found, target)
        print(json.dumps(told, indent=1))
        return status
    print(f"{args.file}: {p.identity.name}, {p.family.instrument}")
    if found is None:
        print(weigh_table.table(w, levers(w)))
    else:
        print(f"  {w.total:.2f} g, balance {w.from_ferrule:.1f} mm ahead of the ferrule in play")
        print(weigh_table.reached(found, target))
    return status


def fit(args: argparse.Namespace) -> int:
    """Write a pattern fitted to the stick in hand, and tell what to take off it where."""
    from templates_gen.bench.fit import adapt as fitting
    from templates_gen.bench.fit import table as fit_table
    from templates_gen.bench.scale import table as scale_table

    p = judging.read(args.file)
    fitted = fitting.fit(p, args.stick, fitting.Keep(args.keep))
    fitting.write(fitted, args.output)
    made = judging.read(args.output)
    if args.json:
        told = {"file": args.file, "output": args.output, **fit_table.as_data(fitted)}
        print(json.dumps(told, indent=1))
    else:
        notes = scale_table.untold(fitted.scaled, made.warnings)
        _tell(args, made, fit_table.table(fitted), notes)
    return 0 if fitted.sound else 1


def calibrate(args: argparse.Namespace) -> int:
    """Write the printer's test page, or store what was measured on it."""
    from templates_gen.bench.calibrate.call import call

    print(*call(args.output, args.paper, args.measured, args.diagonals, args.shop), sep="\n")
    return 0


VERBS: dict[str, Callable[[argparse.Namespace], int]] = {
    "new": new,
    "check": check,
    "list": list_templates,
    "draw": draw,
    "scale": scale,
    "weigh": weigh,
    "fit": fit,
    "calibrate": calibrate,
    "explain": explain,
}
