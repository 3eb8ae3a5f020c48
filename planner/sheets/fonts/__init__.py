"""The fonts of the sheets, with their licence and measured advances; nothing else is used."""
