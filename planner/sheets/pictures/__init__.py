"""Pictures of a plan, drawn by us as plain SVG that browsers and print engines show alike."""
