"""The same page gives the same bytes, in whatever process and with whatever hash seed."""

import hashlib
import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from builder.pages.blocks import Page
from builder.pages.site.site_pages import SitePages
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts

SCRIPT = """
import hashlib, pickle, sys
from builder.render.html.page import Renderer, template_texts
page, site = pickle.load(sys.stdin.buffer)
print(hashlib.sha256(Renderer(template_texts(None)).page(page, site)).hexdigest())
"""


def test_other_processes_and_hash_seeds_give_the_same_bytes(
    root: Path, renderer: Renderer, site: SitePages, page_of: Callable[..., Page]
) -> None:
    page = page_of("x")
    here = hashlib.sha256(renderer.page(page, site)).hexdigest()
    for seed in ("0", "1"):
        made = subprocess.run(
            [sys.executable, "-c", SCRIPT],
            input=pickle.dumps((page, site)),
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=root,
            capture_output=True,
            check=True,
        )
        assert made.stdout.decode().strip() == here


def test_a_workspace_may_take_the_place_of_one_template(
    tmp_path: Path, site: SitePages, page_of: Callable[..., Page]
) -> None:
    (tmp_path / "rules.html").write_text("<!doctype html><title>{{ page.title }}</title>", "utf-8")
    own = Renderer(template_texts(tmp_path))
    assert (
        own.page(page_of("<b>", "rules"), site)
        == b"<!doctype html><title>Dipper 3 &lt;b&gt;</title>"
    )
    assert own.page(page_of("", "sheet"), site) == Renderer(template_texts(None)).page(
        page_of("", "sheet"), site
    )


def test_every_file_that_the_style_sheet_names_is_an_asset(tmp_path: Path) -> None:
    files = asset_files(None)
    style = files["assets/sheet.css"].decode()
    named = [
        part.split('"')[1] for part in style.split("url(")[1:] if not part.startswith('"data:')
    ]
    assert len(named) >= 4
    assert all(f"assets/{name}" in files for name in named)
    assert "http" not in style


def test_a_workspaces_own_files_join_the_assets_and_links_do_not(tmp_path: Path) -> None:
    (tmp_path / "mark.svg").write_text("<svg/>", "utf-8")
    (tmp_path / "secret.css").symlink_to("/etc/hostname")
    (tmp_path / "tool.exe").write_bytes(b"x")
    files = asset_files(tmp_path)
    assert files["assets/mark.svg"] == b"<svg/>"
    assert "assets/secret.css" not in files
    assert "assets/tool.exe" not in files
