"""Decision tables: columns, cells, lookup and proof, apart from any file format.

Everything here works on text, a :class:`planner.errors.Place` and SI floats. Reading goes::

    span   = parse_range("[0 bar .. 4 bar]", place, unit=bar, kind="gauge")  # Span | Problem
    boost  = NumberColumn("boost", span, bar, "gauge", "[0 bar .. 4 bar]")
    use    = ChoiceColumn("use", ("endurance", "track", "street"))
    cell   = parse_cell("over 0.7 to 1.4 bar", boost, place)                 # Cell | Problem
    hit    = parse_hit("collect min", place)                                 # Hit | Problem
    row    = Row(cells=(cell, other), result=anything, place=place, rank=0)
    table  = Table((boost, use), (row, ...), hit)
    proof  = prove(table)                                                    # TableProof

and running::

    table.lookup((0.9e5, "street"))   -> list[int]      every row that matches, in row order
    table.decide((0.9e5, "street"))   -> list[int]      the rows that answer: one, or all for collect
    table.could_match(((0.5e5, 0.9e5), frozenset({"street", "track"}))) -> Could(rows, surely)

Public signatures
-----------------
columns.py
    ``Span(low, high, low_open=False, high_open=False)``: SI floats; ``contains(si) -> bool``
    ``NumberColumn(name, span, unit, kind, declared)``: ``unit`` is a ``planner.units`` Unit, or
    None for a plain number; ``kind`` is None where the quantity has none; ``declared`` is the
    range as the rulebook wrote it, for messages
    ``ChoiceColumn(name, words)``; ``Column = NumberColumn | ChoiceColumn``
    ``parse_range(text, place, *, unit, kind=None) -> Span | Problem``
cells.py
    ``parse_cell(text, column, place) -> Cell | Problem``
    ``any_cell(column) -> Cell``
    ``NumberCell(spans, text)``, ``ChoiceCell(words, text)``; both have ``contains(value) -> bool``
    and ``meets(unsettled) -> bool`` (could hold), ``holds_all(unsettled) -> bool`` (surely holds);
    an unsettled number is a pair ``(low, high)``, an unsettled choice a frozenset of words
hits.py
    ``Hit``: UNIQUE ANY FIRST PRIORITY COLLECT COLLECT_MIN COLLECT_MAX COLLECT_SUM COLLECT_COUNT;
    ``hit.collects``, ``hit.must_be_complete``
    ``parse_hit(text, place) -> Hit | Problem``: ``unique``, ``collect``, ``collect sum`` ...
    ``gather(hit, numbers) -> float``: the number a collect table gives from its rows' numbers
tables.py
    ``Row(cells, result, place, rank=0)``: results are opaque; ``==`` is used for hit any. ``rank``
    is used for hit priority alone: the result's position in ``one_of``, 0 wins over 1
    ``Table(columns, rows, hit)`` with ``lookup``, ``decide``, ``could_match`` as above and
    ``slots(values) -> tuple[int, ...]``, ``rows_at(slots) -> int`` (bit r is row r)
table_proof.py
    ``prove(table) -> TableProof(overlaps, gaps, dead, more_overlaps, given_up)``;
    ``proof.holds -> bool``; ``proof.problems(place) -> list[Problem]`` in shop words, where
    ``place`` is the table's own (a gap has no row to point at)
"""
