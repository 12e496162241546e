#pragma once

namespace tenth::bench {

/// Prints what scipy's linear_sum_assignment takes for the costs of `assign_200`, beside ours, or that it is not there:
/// Debian's python3-scipy cannot be installed beside libboost1.81-dev, but unpacked somewhere, with PYTHONPATH set.
void print_beside_scipy();

}  // namespace tenth::bench
