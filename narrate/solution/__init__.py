"""Solutions: steps, facts, figures, slips and rule-outs."""
