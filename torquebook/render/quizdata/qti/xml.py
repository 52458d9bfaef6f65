"""Elements of XML documents that come out alike, byte by byte."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final
from xml.etree import ElementTree as ET

from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterable

QTI: Final = "http://www.imsglobal.org/xsd/imsqti_v2p1"
PACKAGE: Final = "http://www.imsglobal.org/xsd/imscp_v1p1"
_XSI: Final = "http://www.w3.org/2001/XMLSchema-instance"
_LOCATIONS: Final = {
    QTI: "http://www.imsglobal.org/xsd/qti/qtiv2p1/imsqti_v2p1.xsd",
    PACKAGE: "http://www.imsglobal.org/xsd/imscp_v1p1.xsd",
}


def root(tag: str, space: str, attributes: dict[str, str]) -> ET.Element:
    """Return the root of a document in a namespace, with the place of its schema."""
    named = {
        "xmlns": space,
        "xmlns:xsi": _XSI,
        "xsi:schemaLocation": f"{space} {_LOCATIONS[space]}",
    }
    return ET.Element(tag, named | {key: inert(text) for key, text in attributes.items()})


def add(parent: ET.Element, tag: str, text: str = "", **attributes: str) -> ET.Element:
    """Return a new element at the end of another one; its text is inert."""
    child = ET.SubElement(parent, tag, {key: inert(held) for key, held in attributes.items()})
    child.text = inert(text) or None
    return child


def add_all(parent: ET.Element, tag: str, texts: Iterable[str]) -> None:
    """Add an element for each text."""
    for text in texts:
        add(parent, tag, text)


def document(top: ET.Element) -> bytes:
    """Return a document in UTF-8."""
    text = ET.tostring(top, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.encode()
