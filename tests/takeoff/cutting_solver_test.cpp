// Cutting from stock against GLPK's integer solver on random small jobs: every pattern of every stock length is written
// out, and the cheapest whole numbers of them that cover the pieces are asked for.

#include <glpk.h>

#include <functional>

#include "takeoff/cut_plans.h"

using namespace sillwright;
using testing::CutJob;

namespace {

/// Cheapest total by GLPK.
double solved(const CutJob& job) {
  std::map<double, int, std::greater<>> demand;
  for (const auto& piece : job.pieces) demand[piece.length] += piece.count;
  const std::vector<std::pair<double, int>> types(demand.begin(), demand.end());
  glp_prob* lp = glp_create_prob();
  glp_term_out(GLP_OFF);
  glp_set_obj_dir(lp, GLP_MIN);
  glp_add_rows(lp, static_cast<int>(types.size()));
  for (std::size_t i = 0; i < types.size(); ++i)
    glp_set_row_bnds(lp, static_cast<int>(i) + 1, GLP_LO, types[i].second, 0);

  std::vector<int> count(types.size(), 0);
  const auto addColumn = [&](double cost) {
    const int column = glp_add_cols(lp, 1);
    glp_set_col_kind(lp, column, GLP_IV);
    glp_set_col_bnds(lp, column, GLP_LO, 0, 0);
    glp_set_obj_coef(lp, column, cost);
    std::vector<int> rows{0};
    std::vector<double> values{0};
    for (std::size_t i = 0; i < count.size(); ++i) {
      if (count[i] > 0) rows.push_back(static_cast<int>(i) + 1), values.push_back(count[i]);
    }
    glp_set_mat_col(lp, column, static_cast<int>(rows.size()) - 1, rows.data(), values.data());
  };
  for (const double stock : job.rules.stock) {
    // `taken`: the pieces so far and a cut after each but the last.
    const std::function<void(std::size_t, double)> fill = [&](std::size_t i, double taken) {
      const auto with = [&](double length) { return taken + length + (taken > 0 ? job.rules.kerf : 0); };
      if (i == types.size()) {
        // Only patterns that nothing can be added to: a plan may saw more than is wanted.
        for (std::size_t k = 0; k < types.size(); ++k) {
          if (count[k] < types[k].second && with(types[k].first) <= stock) return;
        }
        if (taken > 0) addColumn(stock);
        return;
      }
      const double before = taken;
      for (int n = 0; n <= types[i].second && taken <= stock; ++n) {
        count[i] = n;
        fill(i + 1, taken);
        taken = with(types[i].first);
      }
      count[i] = 0;
      taken = before;
    };
    fill(0, 0);
  }
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.presolve = GLP_ON;
  how.tm_lim = 20'000;
  const int failed = glp_intopt(lp, &how);
  const bool optimal = failed == 0 && glp_mip_status(lp) == GLP_OPT;
  const double cost = optimal ? glp_mip_obj_val(lp) : -1;
  glp_delete_prob(lp);
  return cost;
}

}  // namespace

TEST_CASE("500 random jobs cost what GLPK's integer solver says") {
  testing::Dice dice(20260314);
  int proven = 0;
  int compared = 0;
  for (int i = 0; i < 500; ++i) {
    const CutJob job = testing::smallJob(dice);
    const auto plan = takeoff::cut(job.pieces, job.rules);
    CAPTURE(i);
    testing::requireSawable(job, plan);
    REQUIRE(plan.bought <= testing::firstFitDecreasing(job) + 1e-9);
    proven += plan.proven() ? 1 : 0;
    const double best = solved(job);
    if (best < 0) continue;  // the solver ran out of its time
    ++compared;
    REQUIRE(plan.bound <= best + 1e-6);
    REQUIRE(plan.bought >= best - 1e-6);
    if (plan.proven()) REQUIRE(plan.bought == Approx(best).epsilon(1e-9));
  }
  CHECK(compared >= 488);
  CHECK(proven >= 495);
}
