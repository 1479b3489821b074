#include <algorithm>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/words.h"
#include "plan/plan.h"

namespace sillwright::plan {

namespace {

/// "is no wind class of the practice "au" (N1, N2, N3); did you mean "N3"?"
std::string notOneOf(std::string_view name, std::string_view what, const practice::Practice& practice,
                     const std::vector<std::string_view>& known) {
  std::string say = base::quote(name);
  say.append(" is no ").append(what).append(" of the practice ").append(base::quote(practice.name));
  if (known.empty()) return say.append(", which names none");
  std::string_view separator = ": use ";
  for (const std::string_view each : known) {
    say.append(separator).append(base::oneLine(each));
    separator = ", ";
  }
  if (const std::string_view meant = base::nearest(name, known); !meant.empty()) {
    say.append("; did you mean ").append(base::quote(meant)).append("?");
  }
  return say;
}

template <class Named>
std::vector<std::string_view> namesOf(const std::vector<Named>& all) {
  std::vector<std::string_view> names;
  names.reserve(all.size());
  for (const Named& each : all) names.push_back(each.name);
  return names;
}

void judgeWind(const job::Job& job, const practice::Practice& practice, std::vector<base::Error>& errors) {
  const std::string* wanted = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;
  if (wanted == nullptr || practice.strength.wind.find(*wanted) != nullptr) return;
  errors.push_back({job.file, job.wind_place, "job.wind",
                    notOneOf(*wanted, "wind class", practice, namesOf(practice.strength.wind.classes))});
}

void judgeTimber(const job::Job& job, const practice::Practice& practice, std::vector<base::Error>& errors) {
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    const job::Wall& wall = job.walls[i];
    if (!wall.timber || practice.strength.timber.find(*wall.timber) != nullptr) continue;
    errors.push_back({job.file, wall.timber_place, "wall[" + std::to_string(i) + "].timber",
                      notOneOf(*wall.timber, "timber grade", practice, namesOf(practice.strength.timber.grades))});
  }
}

/// Why a name is no screw: it is a gauge of the practice and a length, "8g x 75".
std::string notAScrew(const std::string& name, const practice::Practice& practice) {
  const std::size_t by = name.find(" x ");
  const std::vector<std::string_view> gauges = namesOf(practice.strength.gauges);
  const std::string gauge = name.substr(0, by);
  if (by != std::string::npos && std::find(gauges.begin(), gauges.end(), gauge) == gauges.end()) {
    return notOneOf(gauge, "gauge of screw", practice, gauges);
  }
  std::string say = base::quote(name) + " is no screw: name it with its gauge and length";
  if (!gauges.empty()) say.append(", like ").append(base::quote(std::string(gauges.front()) + " x 75"));
  return say;
}

void judgeScrews(const job::Job& job, const practice::Practice& practice, std::vector<base::Error>& errors) {
  if (!job.stock) return;
  for (std::size_t i = 0; i < job.stock->screws.size(); ++i) {
    const std::string& screw = job.stock->screws[i];
    if (practice::findScrew(practice.strength, screw)) continue;
    errors.push_back(
        {job.file, job.stock->screws_place, "stock.screws[" + std::to_string(i) + "]", notAScrew(screw, practice)});
  }
}

}  // namespace

std::vector<base::Error> disagreements(const job::Job& job, const practice::Practice& practice) {
  std::vector<base::Error> errors;
  judgeWind(job, practice, errors);
  judgeTimber(job, practice, errors);
  judgeScrews(job, practice, errors);
  std::stable_sort(errors.begin(), errors.end(), [](const base::Error& a, const base::Error& b) {
    return a.at.line != b.at.line ? a.at.line < b.at.line : a.at.column < b.at.column;
  });
  return errors;
}

}  // namespace sillwright::plan
