/// The largest spare of a unit in an opening by GLPK, a general linear programming library.
///
/// Stated the plain way: an inequality for each point of the unit or of an edge that may come nearest, with the edge's
/// segments taken as lines. For an edge bowed inward there are three cases (the unit wholly before the edge's middle,
/// opposite it, wholly past it), each with its own inequalities and the condition that it is that case; every
/// combination of cases is a programme of its own.
#pragma once

#include <glpk.h>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "support/openings.h"

namespace sillwright::testing {

class GlpkPlace {
 public:
  GlpkPlace() : lp_(glp_create_prob()) {
    glp_term_out(GLP_OFF);
    glp_init_smcp(&how_);
    how_.msg_lev = GLP_MSG_OFF;
    how_.tol_bnd = how_.tol_dj = 1e-9;
    glp_set_obj_dir(lp_, GLP_MAX);
    glp_add_cols(lp_, 3);
    for (int column = 1; column <= 3; ++column) glp_set_col_bnds(lp_, column, GLP_FR, 0, 0);
    glp_set_obj_coef(lp_, 3, 1);
  }
  ~GlpkPlace() { glp_delete_prob(lp_); }
  GlpkPlace(const GlpkPlace&) = delete;
  GlpkPlace& operator=(const GlpkPlace&) = delete;

  double largestSpare(const Problem& p) {
    double best = -std::numeric_limits<double>::infinity();
    std::array<int, 4> cases{};
    for (;;) {
      best = std::max(best, solve(p, cases));
      std::size_t side = 0;
      while (side < 4 && ++cases[side] >= casesOf(p, side)) cases[side++] = 0;
      if (side == 4) return best;
    }
  }

 private:
  struct Row {
    double x, z, m, least;  // x·X + z·Z + m·M ≥ least
  };

  static double bowOf(const Problem& p, std::size_t side) {
    return std::array{p.shape.bow.left, p.shape.bow.right, p.shape.bow.sill, p.shape.bow.head}[side];
  }
  static int casesOf(const Problem& p, std::size_t side) { return bowOf(p, side) > 0 ? 3 : 1; }

  void addRows(const Problem& p, std::size_t s, int which) {
    const auto side = static_cast<plan::Side>(s);
    const bool jamb = s < 2;
    const bool far = s % 2 == 1;
    const double sign = far ? -1 : 1;
    const double along_size = jamb ? p.height : p.width;
    const double across_size = far ? (jamb ? p.width : p.height) : 0;
    const double least = std::array{p.least.left, p.least.right, p.least.sill, p.least.head}[s];
    const plan::Edge edge = p.shape.edge(side);
    const auto along = [&](std::size_t i) { return jamb ? edge[i].z : edge[i].x; };
    const auto across = [&](std::size_t i) { return jamb ? edge[i].x : edge[i].z; };
    // The unit's corner `shift` along its side keeps clear of the line through segment i.
    const auto keepClear = [&](std::size_t i, double shift) {
      const double slope = (across(i + 1) - across(i)) / (along(i + 1) - along(i));
      // sign·(U + across_size − across − slope·(T + shift − along)) − M ≥ least, U across and T along.
      const double constant = sign * (across_size - across(i) - slope * (shift - along(i)));
      rows_.push_back(jamb ? Row{sign, -sign * slope, -1, least - constant}
                           : Row{-sign * slope, sign, -1, least - constant});
    };
    const auto keepClearOfMiddle = [&] {
      const double constant = sign * (across_size - across(1));
      rows_.push_back(jamb ? Row{sign, 0, -1, least - constant} : Row{0, sign, -1, least - constant});
    };
    const auto standAt = [&](double way, double limit) {  // way·T ≥ limit
      rows_.push_back(jamb ? Row{0, way, 0, limit} : Row{way, 0, 0, limit});
    };
    if (casesOf(p, s) == 1) {
      // Straight or bowed outward the middle is never nearer than both corners are.
      for (const std::size_t i : {0u, 1u}) keepClear(i, 0), keepClear(i, along_size);
    } else if (which == 0) {
      keepClear(0, 0), keepClear(0, along_size);
      standAt(-1, along_size - along(1));
    } else if (which == 1) {
      keepClear(0, 0), keepClearOfMiddle(), keepClear(1, along_size);
      standAt(-1, -along(1));
      standAt(1, along(1) - along_size);
    } else {
      keepClear(1, 0), keepClear(1, along_size);
      standAt(1, along(1));
    }
  }
  double solve(const Problem& p, const std::array<int, 4>& cases) {
    rows_.clear();
    for (std::size_t side = 0; side < 4; ++side) addRows(p, side, cases[side]);

    const int count = static_cast<int>(rows_.size());
    if (glp_get_num_rows(lp_) < count) glp_add_rows(lp_, count - glp_get_num_rows(lp_));
    if (glp_get_num_rows(lp_) > count) {
      std::vector<int> spare{0};
      for (int i = count + 1; i <= glp_get_num_rows(lp_); ++i) spare.push_back(i);
      glp_del_rows(lp_, static_cast<int>(spare.size()) - 1, spare.data());
    }
    for (int i = 0; i < count; ++i) {
      const Row& row = rows_[static_cast<std::size_t>(i)];
      const std::array<int, 4> columns{0, 1, 2, 3};
      const std::array<double, 4> values{0, row.x, row.z, row.m};
      glp_set_mat_row(lp_, i + 1, 3, columns.data(), values.data());
      glp_set_row_bnds(lp_, i + 1, GLP_LO, row.least, 0);
    }
    glp_std_basis(lp_);
    if (glp_simplex(lp_, &how_) != 0 || glp_get_status(lp_) != GLP_OPT) {
      return -std::numeric_limits<double>::infinity();
    }
    return glp_get_obj_val(lp_);
  }

  glp_prob* lp_;
  glp_smcp how_{};
  std::vector<Row> rows_;
};

}  // namespace sillwright::testing
