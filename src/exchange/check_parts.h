/// Inside the room: the report of a check from the texts of its walls and openings, whoever made them.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/check_json.h"

namespace sillwright::exchange {

/// Adds one wall, one opening as they stand in the report, without the commas between them.
void addWall(std::string& out, const job::Wall& wall, const plan::WallPlan& plan,
             const std::vector<check::Finding>& findings);
void addOpening(std::string& out, const job::Job& job, const plan::Plan& plan, const check::Findings& findings,
                std::size_t index);

/// Where those texts come from, by index. Each is looked at before the next one is asked for.
struct ReportTexts {
  std::function<std::string_view(std::size_t)> wall;
  std::function<std::string_view(std::size_t)> opening;
};

/// The whole report; of `findings` only the job's verdict and cautions are looked at.
void writeReport(const job::Job& job, const practice::Practice& practice, const check::Findings& findings,
                 const ReportTexts& texts, const Sink& sink);

}  // namespace sillwright::exchange
