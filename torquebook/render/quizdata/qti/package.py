"""Sheets as a QTI 2.1 content package: an item for each question, a test for each sheet.

It holds the answers: courses' platforms mark by them. The bytes are the same for the same quiz.
Identifiers begin with the quiz's code, so that a platform can hold the items of many quizzes.
"""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING, Final
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from torquebook.quiz.letters import code_of
from torquebook.render.cautions import CAUTION
from torquebook.render.quizdata.qti.item import SCORE, item
from torquebook.render.quizdata.qti.xml import PACKAGE, QTI, add, document, root
from torquebook.render.quizdata.words import about

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from xml.etree import ElementTree as ET

    from torquebook.quiz.model import Drawing, Quiz, Sheet

MANIFEST: Final = "imsmanifest.xml"
ITEM_TYPE: Final = "imsqti_item_xmlv2p1"
TEST_TYPE: Final = "imsqti_test_xmlv2p1"
_STAMP: Final = (1980, 1, 1, 0, 0, 0)  # the earliest that an archive knows
_FILE: Final = 0o100644 << 16


def package(quiz: Quiz, draw: Callable[[Drawing], str] | None = None) -> bytes:
    """Return a ZIP content package.

    Parameters
    ----------
    quiz : Quiz
    draw : callable, optional
        Makes an SVG of a drawing; without it drawings are told in words.
    """
    files: dict[str, bytes] = {}
    code = code_of(quiz)
    manifest = root("manifest", PACKAGE, {"identifier": f"quiz-{code}"})
    metadata = add(manifest, "metadata")
    add(metadata, "schema", "QTIv2.1 Package")
    add(metadata, "schemaversion", "1.0.0")
    add(manifest, "organizations")
    resources = add(manifest, "resources")
    for sheet in quiz.sheets:
        name, parts = f"sheet-{sheet.number:03}", {}
        for number, asked in enumerate(sheet.questions, 1):
            part = f"s{sheet.number:03}-q{number:03}"
            pictures = {}
            if draw and asked.drawing:
                pictures[f"drawings/{part}.svg"] = f"{draw(asked.drawing)}\n".encode()
            title = f"Sheet {sheet.number}, question {number}"
            path, identifier = f"items/{part}.xml", f"{code}-{part}"
            made = item(asked, identifier, title, "".join(f"../{path}" for path in pictures))
            _list(resources, identifier, ITEM_TYPE, {path: made} | pictures, files)
            parts[identifier] = path
        test = _test(quiz, sheet, f"{code}-{name}", parts)
        _list(resources, f"{code}-{name}", TEST_TYPE, {f"tests/{name}.xml": test}, files, parts)
    return _zipped({MANIFEST: document(manifest)} | files)


def _list(
    resources: ET.Element,
    name: str,
    kind: str,
    own: Mapping[str, bytes],
    files: dict[str, bytes],
    needs: Iterable[str] = (),
) -> None:
    """List a resource with its files, its own document first, and with what it needs."""
    resource = add(resources, "resource", identifier=name, type=kind, href=next(iter(own)))
    for path in own:
        add(resource, "file", href=path)
    for other in needs:
        add(resource, "dependency", identifierref=other)
    files.update(own)


def _test(quiz: Quiz, sheet: Sheet, name: str, parts: Mapping[str, str]) -> bytes:
    """Return the ``assessmentTest`` of a sheet: all questions at once, a point for each."""
    said = f"Sheet {sheet.number}: {about(quiz)}"
    top = root("assessmentTest", QTI, {"identifier": name, "title": said, "toolName": "torquebook"})
    most = str(len(sheet.questions))
    add(
        top,
        "outcomeDeclaration",
        identifier=SCORE,
        cardinality="single",
        baseType="float",
        normalMaximum=most,
    )
    part = add(
        top,
        "testPart",
        identifier=f"{name}-part",
        navigationMode="nonlinear",
        submissionMode="individual",
    )
    section = add(
        part, "assessmentSection", identifier=f"{name}-section", title=said, visible="true"
    )
    add(add(section, "rubricBlock", view="candidate"), "p", CAUTION)
    for identifier, path in parts.items():
        add(section, "assessmentItemRef", identifier=identifier, href=f"../{path}")
    total = add(add(top, "outcomeProcessing"), "setOutcomeValue", identifier=SCORE)
    add(add(total, "sum"), "testVariables", variableIdentifier=SCORE)
    return document(top)


def _zipped(files: Mapping[str, bytes]) -> bytes:
    """Pack files as they are: how a file is pressed differs from one library to the next."""
    held = BytesIO()
    with ZipFile(held, "w", ZIP_STORED) as archive:
        for path, content in files.items():
            info = ZipInfo(path, _STAMP)
            info.create_system, info.external_attr = 3, _FILE
            archive.writestr(info, content)
    return held.getvalue()
