"""QTI 2.1 (1EdTech Question & Test Interoperability): sheets that courses' platforms give and mark.

An item holds its question *and its answer*, as the platform marks by it: a package is the
trainer's, and never handed out. Sources: IMS Question & Test Interoperability, version 2.1, final
release (2012; schema 2.1.1, 2013); IMS Content Packaging, version 1.1.4 (2004).
"""
