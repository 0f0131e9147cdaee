"""Covers a graph of "these two never at once" by few groups in which nobody overlaps anybody."""

from __future__ import annotations

from collections.abc import Callable, Sequence


def cliques(members: Sequence[str], conflict: Callable[[str, str], bool]) -> list[list[str]]:
    """Groups of members, each a clique of `conflict`, that together hold every conflicting pair; greedy, repeatable."""
    edges = {(a, b) for i, a in enumerate(members) for b in members[i + 1 :] if conflict(a, b)}
    meets = edges | {(b, a) for a, b in edges}
    left = set(edges)
    groups = []
    for a, b in sorted(edges, key=lambda pair: (members.index(pair[0]), members.index(pair[1]))):
        if (a, b) not in left:
            continue
        group = [a, b]
        for other in members:
            if other not in group and all((other, one) in meets for one in group):
                group.append(other)
        group.sort(key=members.index)
        left -= {(x, y) for i, x in enumerate(group) for y in group[i + 1 :]}
        groups.append(group)
    return groups
