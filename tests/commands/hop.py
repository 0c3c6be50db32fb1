"""The text of a small record without a fault."""

SKILL = """kind: skill
id: hop
title: Hopping
family: locomotor
summary: From one hop to many.
steps:
  - {id: one-hop, title: One hop, means: Hops once and lands on the same foot.}
"""
