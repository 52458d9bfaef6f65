"""The page: steps as data, one style, one script that the page's own policy names by its hash."""

from __future__ import annotations

import base64
import hashlib
import json
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from torquebook.jobs.answering import FAR_LESS, FAR_MORE
from torquebook.numerals import number_text
from torquebook.render.cautions import CAUTION
from torquebook.render.plain import inert
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from torquebook.jobs.steps import RunStep

_HERE: Final = Path(__file__).parent


def page(steps: Sequence[RunStep], start: Mapping[str, Any], file: str) -> str:
    """Return a job as one page of HTML that asks nobody for anything.

    Parameters
    ----------
    steps : sequence of RunStep
    start : mapping
        What the first entry of its journal says.
    file : str
        What the exported journal is called.
    """
    script = (_HERE / "phone.js").read_text(encoding="utf-8")
    style = (_HERE / "phone.css").read_text(encoding="utf-8")
    known = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    policy = f"default-src 'none'; script-src 'sha256-{known}'; style-src 'unsafe-inline'"
    words = {"far_less": FAR_LESS, "far_more": FAR_MORE}
    shown = [_shown(step) for step in steps if step.kind != "sign"]
    held = {"start": start, "steps": shown, "file": file, "words": words}
    title = escape(inert(str(start["title"])))
    return f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title><style>{style}</style></head>
<body>
<header><p id="count"></p><h2 id="title">{title}</h2></header>
<main><p id="big"></p><div id="lines"></div><p id="said" role="status"></p></main>
<input id="reading" inputmode="decimal" autocomplete="off" aria-label="reading" hidden>
<input id="reason" autocomplete="off" placeholder="why" aria-label="why" hidden>
<div class="keys">
<button id="done" class="main">done</button>
<button id="yes">yes</button><button id="no">no</button>
<button id="back">back</button><button id="skip">skip</button>
<button id="export">export</button>
</div>
<footer>{escape(CAUTION)}</footer>
<script type="application/json" id="job">{_embedded(held)}</script>
<script>{script}</script>
</body></html>
"""


def _shown(step: RunStep) -> dict[str, Any]:
    """Return what the page needs of a step."""
    name, setting = step.setting or ("", None)
    ends = None if step.limits is None else {**step.limits._asdict(), "shown": step.limits.shown}
    return {
        "id": step.id,
        "kind": step.kind,
        "name": step.name,
        "spot": step.spot,
        "asks": step.asks,
        "big": with_unit(step.big, step.unit) if step.unit else step.big,
        "lines": [*([step.spot] if step.spot else []), *step.hint, *step.says],
        "limits": ends,
        "must": step.must,
        "blocks": step.blocks,
        "opens": [one._asdict() for one in step.opens],
        "wrench": name,
        "setting": f"{number_text(setting.value)} {setting.unit}" if setting else "",
    }


def _embedded(held: Any) -> str:
    """Return JSON in ASCII that can stand in a page: nothing in it ends its element."""
    return json.dumps(_inert(held)).replace("<", "\\u003c").replace("&", "\\u0026")


def _inert(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _inert(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_inert(item) for item in value]
    return inert(value) if isinstance(value, str) else value
