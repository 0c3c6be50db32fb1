"""The same linear model given to HiGHS, a solver that shares nothing with the first."""

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from lessonkit.planning.linear import Linear


def least_cost(model: Linear) -> int | None:
    """Return the least cost that HiGHS proves, or None where it proves that there is no plan."""
    size = len(model.variables)
    if not size:
        return model.constant if all((r.least or 0) <= 0 <= (r.most or 0) for r in model.rows) else None
    cost = np.zeros(size)
    for number, factor in model.cost.items():
        cost[number] = factor
    entries = [(row, number, factor) for row, each in enumerate(model.rows) for factor, number in each.terms]
    rows, columns, factors = zip(*entries, strict=True) if entries else ((), (), ())
    matrix = csr_matrix((factors, (rows, columns)), shape=(len(model.rows), size))
    lower = [-np.inf if row.least is None else row.least for row in model.rows]
    upper = [np.inf if row.most is None else row.most for row in model.rows]
    found = milp(
        cost,
        constraints=LinearConstraint(matrix, lower, upper),
        bounds=Bounds([each.least for each in model.variables], [each.most for each in model.variables]),
        integrality=np.ones(size),
        options={"mip_rel_gap": 0},
    )
    if found.status == 2:
        return None
    assert found.status == 0, found.message
    return round(found.fun) + model.constant
