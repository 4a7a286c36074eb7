#include "engine/linear_programme.hpp"

#include <coin/Clp_C_Interface.h>
#include <memory>

namespace lidlift {

std::optional<std::vector<double>> solve(const LinearProgramme& programme) {
    const int columns = static_cast<int>(programme.cost.size());
    const int rows = static_cast<int>(programme.limits.size());
    if (columns == 0) {
        for (const LinearLimit& limit : programme.limits)
            if (limit.low > 0 || limit.high < 0) return std::nullopt;
        return std::vector<double>{};
    }
    // Clp wants the matrix column by column.
    std::vector<CoinBigIndex> starts{0};
    std::vector<int> row_of;
    std::vector<double> values;
    for (int column = 0; column < columns; ++column) {
        for (int row = 0; row < rows; ++row) {
            row_of.push_back(row);
            values.push_back(programme.limits[static_cast<std::size_t>(row)].factors[static_cast<std::size_t>(column)]);
        }
        starts.push_back(static_cast<CoinBigIndex>(values.size()));
    }
    std::vector<double> low;
    std::vector<double> high;
    for (const LinearLimit& limit : programme.limits) {
        low.push_back(limit.low);
        high.push_back(limit.high);
    }
    const std::vector<double> least(programme.cost.size(), 0);

    const std::unique_ptr<Clp_Simplex, decltype(&Clp_deleteModel)> model(Clp_newModel(), Clp_deleteModel);
    Clp_setLogLevel(model.get(), 0);  // a library does not print
    Clp_loadProblem(model.get(), columns, rows, starts.data(), row_of.data(), values.data(), least.data(),
                    programme.most.data(), programme.cost.data(), low.data(), high.data());
    Clp_setPrimalTolerance(model.get(), 1e-9);
    Clp_setDualTolerance(model.get(), 1e-9);
    Clp_initialSolve(model.get());
    if (Clp_status(model.get()) != 0) return std::nullopt;
    const double* best = Clp_primalColumnSolution(model.get());
    std::vector<double> result(best, best + columns);
    for (double& x : result)
        if (x < 0) x = 0;  // within the tolerance
    return result;
}

}  // namespace lidlift
