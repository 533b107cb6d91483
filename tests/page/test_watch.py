"""Watch mode: redraws and reports a saved change, reports a broken file, leaves nothing behind."""

import hashlib
import json
import re
from functools import partial
from pathlib import Path

import pytest
from page.sets import SOUND

from templates_gen.command import watch
from templates_gen.pipeline import rendering
from templates_gen.writers.page.reload import followed

ONLY = ("frog-side", "ferrule-mandrel")


def judged(p):
    return rendering.check(p)


def rendered(p, checked, glance, formats=("svg",)):
    return rendering.render(p, checked, formats=() if glance else formats, only=ONLY, plane=True)


class Bench:
    """A watched file and a script of edits."""

    def __init__(self, folder, force=False, text=SOUND):
        self.file, self.out, self.text = Path("dunlin.toml"), folder / "out", text
        self.file.write_text(text, "utf-8")
        p = rendering.read(str(self.file))
        self.watched = watch.Watched(
            str(self.file), self.out, judged, rendered, force, p, judged(p)
        )
        self.said = []

    def work(self, *steps):
        left = iter(steps)

        def pause(_):
            step = next(left, None)
            if step is None:
                raise KeyboardInterrupt
            step()

        with pytest.raises(KeyboardInterrupt):
            for line in watch.follow([self.watched], pause):
                self.said.append(line)

    def save(self, more):
        self.file.write_text(self.text + more, "utf-8")

    def page(self):
        return (self.out / "index.html").read_text("utf-8")

    def output(self):
        return "\n".join(self.said)


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def bench(tmp_path):
    return Bench(tmp_path)


def test_reports_and_draws_a_saved_change(bench):
    seen = []
    bench.work(
        lambda: seen.append(bench.page()),
        partial(bench.save, "[ferrule]\nouter_width = 12.7\n"),
        lambda: seen.append(bench.page()),
    )
    assert "ferrule.outer_width 12.6 → 12.7" in bench.output()
    before, after = (re.search(r"parameters (\w{8})", page)[1] for page in seen)
    assert before != after
    fresh = rendering.read(str(bench.file))
    assert after == fresh.digest[:8]
    assert fresh.digest[:8] in (bench.out / "dunlin--frog-side.svg").read_text("utf-8")


def test_prints_what_the_docs_show(tmp_path):
    root = Path(__file__).parents[2]
    said = re.search(r"^    (dunlin.toml: .*)$", (root / "docs/how-to/watch.md").read_text(), re.M)
    key, old, new = re.search(r"frog\.(\w+) (\S+) → ([\d.]+)", said[1]).groups()
    bench = Bench(tmp_path, text=(root / "params/bass-french.toml").read_text("utf-8"))
    starter = bench.text
    edited = re.sub(rf"^({key} *)= {old} ", rf"\1= {new} ", starter, flags=re.M)
    assert edited != starter
    bench.work(lambda: bench.file.write_text(edited, "utf-8"))
    assert said[1] in " ".join(bench.output().split())
    assert "out: sheets written; " in " ".join(bench.output().split())


def test_reports_a_changed_verdict(bench):
    bench.work(partial(bench.save, "[ferrule]\nouter_width = 11\n"))
    told = " ".join(bench.output().split())
    assert "ferrule.ribbon_fits close → fail" in told or "ferrule.ribbon_fits pass → fail" in told
    assert "cure: make " in told
    assert "the old files stay" in told
    old = hashlib.sha256((bench.out / "dunlin--frog-side.svg").read_bytes()).hexdigest()
    manifest = json.loads((bench.out / "manifest.json").read_text("utf-8"))
    assert manifest["files"]["dunlin--frog-side.svg"] == old


def test_forced_draw_marks_the_failed_place(tmp_path):
    bench, seen = Bench(tmp_path, force=True), []
    bench.work(
        partial(bench.save, "[ferrule]\nouter_width = 11\n"), lambda: seen.append(bench.page())
    )
    assert 'class="mark"' in seen[0] and "do not cut" in seen[0]


def test_reports_a_broken_file_and_keeps_the_old_files(bench):
    seen = []
    bench.work(
        lambda: seen.append(bench.page()),
        partial(bench.save, "[ferrule]\nouter_width = nan\n"),
        lambda: seen.append(bench.page()),
        partial(bench.save, ""),
    )
    assert "ferrule.outer_width" in bench.output() and "the old files stay" in bench.output()
    assert bench.output().endswith("sound again, and as it was")
    assert seen[0] == seen[1]


def test_waits_for_a_file_that_is_missing_for_a_moment(bench):
    bench.work(
        bench.file.unlink, lambda: None, partial(bench.save, "[frog]\nthroat_depth = 4.52\n")
    )
    assert "frog.throat_depth 4.5 → 4.52" in bench.output()


def test_watches_the_base_file_too(tmp_path):
    bench = Bench(tmp_path)
    base = Path("base.toml")
    base.write_text(SOUND.replace("Dunlin", "Base"), "utf-8")
    text = 'units = "mm"\nbased_on = "base.toml"\n[pattern]\nname = "Dunlin"\n'
    bench.work(
        lambda: bench.file.write_text(text, "utf-8"),
        lambda: base.write_text(base.read_text("utf-8") + "[hair]\ncount = 171\n", "utf-8"),
    )
    assert re.search(r"hair\.count \d+ → 171", bench.output())


def test_leaves_the_files_draw_alone_would_write(bench):
    bench.work(partial(bench.save, "[frog]\nthroat_depth = 4.52\n"))
    p = rendering.read(str(bench.file))
    alone = rendered(p, judged(p), False)
    assert {f.name: f.read_bytes() for f in bench.out.iterdir()} == alone


def test_removes_a_sheet_that_is_no_longer_drawn(bench):
    extra = {**rendered(bench.watched.pattern, bench.watched.checked, False), "old.svg": b"<svg/>"}
    steps = iter(
        [{"index.html": extra["index.html"], "manifest.json": extra["manifest.json"]}, extra]
    )
    real = bench.watched.render
    bench.watched.render = lambda *a: next(steps, None) or real(*a)
    bench.work((bench.out / "old.svg").stat, partial(bench.save, "[frog]\nthroat_depth = 4.52\n"))
    assert not (bench.out / "old.svg").exists()


def test_watched_page_loads_the_script_and_its_manifest_is_right(sound):
    files = followed(sound.files)
    page = files["index.html"].decode()
    assert page.count("<script>") == 1 and "http" not in page
    told = json.loads(files["manifest.json"])["files"]["index.html"]
    assert told == hashlib.sha256(files["index.html"]).hexdigest()
    (mine,) = re.findall(r'mine = "(\w{16})"', page)
    assert mine in files["watch.js"].decode()
    assert followed(sound.files) == files


def test_lines_have_at_most_80_columns(bench):
    bench.work(partial(bench.save, "[ferrule]\nouter_width = 11\n[frog]\nthroat_depth = 7.5\n"))
    told = [line for line in bench.output().splitlines() if str(bench.out) not in line]
    assert len(told) > 4 and max(map(len, told)) <= 80
