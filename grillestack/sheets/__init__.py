"""What must be on the paper: drawings as frozen data in mm, and one writer for each format.

Holds the draw list, the composers that fill it from a project, the placement of dimensions, and the writers for PDF, SVG
and DXF, which give back bytes. May import `advice` and below; never Qt, `fit`, `storage` or `cli`. Whoever wants a file
writes the bytes. reportlab and ezdxf are imported by their own writer modules only, which nothing imports at start.
"""
