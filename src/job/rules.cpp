#include "job/rules.h"

namespace sillwright::job {
namespace {

constexpr const TableRule* kTables[] = {
    &kFileRule,          &kJobRule,       &kWindRule,    &kWallRule,      &kStudRule,
    &kPlatesRule,        &kCladdingRule,  &kEaveRule,    &kSupportsRule,  &kOpeningRule,
    &kLintelRule,        &kUnitRule,      &kFrameRule,   &kRevealRule,    &kGlassRule,
    &kMeasuredRule,      &kWidthsRule,    &kHeightsRule, &kDiagonalsRule, &kLeanRule,
    &kTiltRule,          &kWallDepthRule, &kByRule,      &kInstalledRule, &kInstalledDiagonalsRule,
    &kInstalledLeanRule, &kStockRule,
};

}  // namespace

std::span<const TableRule* const> tableRules() {
  return kTables;
}

std::vector<std::string_view> knownKeys(std::string_view path) {
  std::vector<std::string_view> names;
  for (const auto* table : kTables) {
    if (table->path != path) continue;
    for (const auto& key : table->keys) names.push_back(key.name);
  }
  return names;
}

}  // namespace sillwright::job
