"""What no plan can beat: hand-over days that are ruled out without a search.

Each bound is one small module that looks at the ranges a hand-over leaves every task: too little time for the work of a
trade (`stretches`), for what must lie in a stretch at the least (`energy`), of tasks that cannot overlap (`cliques`),
for one trade behind another (`pairs`). `least` asks them.
"""
