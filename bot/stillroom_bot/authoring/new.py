"""``stillroom plugin new``: a package that is ready to be installed, checked and published."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from string import Template

from stillroom.sources import NAME

FILES = {
    "pyproject.toml": "pyproject.toml", "README.md": "README.md", "src/stillroom_{name}/__init__.py": "module.py",
    "src/stillroom_{name}/table.csv": "table.csv", "src/stillroom_{name}/py.typed": "",
    "tests/test_{name}.py": "test.py", "tests/cases.csv": "cases.csv", ".github/workflows/check.yml": "ci.yml",
    ".gitignore": "gitignore",
}


def new_plugin(name: str, where: Path) -> tuple[int, str]:
    """Write the package ``stillroom-NAME`` into a folder of that name in ``where``; exit status and text.

    Status 64 for a name that cannot be one, 2 where the folder is there already.  Raises OSError.
    """
    if not NAME.match(name) or name in ("base", "dose", "kind", "most"):
        return 64, f"{name!r} cannot name a plugin here: use lower case letters, digits and _, such as teabar."
    dash = name.replace("_", "-")
    folder = where / f"stillroom-{dash}"
    if folder.exists():
        return 2, f"{folder} is there already; nothing was written."
    words = name.replace("_", " ")
    said = {"name": name, "dash": dash, "words": words, "title": words.capitalize()}
    for path, template in FILES.items():
        file = folder / path.format(name=name)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(_filled(template, said) if template else "", "utf-8")
    return 0, (f"Wrote {folder}. Next:\n  cd {folder}\n  pip install -e '.[test]'\n  stillroom plugin check {name}\n"
               f"  pytest\nThen change src/stillroom_{name} to your own trade.")


def _filled(template: str, said: dict[str, str]) -> str:
    text = resources.files(__package__).joinpath(f"template/{template}.txt").read_text("utf-8")
    return Template(text).substitute(said)
