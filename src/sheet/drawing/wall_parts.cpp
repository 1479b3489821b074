#include "sheet/drawing/wall_parts.h"

#include "plan/frame/part_names.h"
#include "words/length.h"

namespace sillwright::sheet {
Table scheduleOf(const std::vector<plan::MemberGroup>& groups, const practice::Practice& practice) {
  const bool inches = practice.display == practice::Display::InchFractions;
  const double width = inches ? 112.5 : 101.5;
  Table table(width, {{"mark", 9.5},
                      {"piece", 38},
                      {"section"},
                      {"length", inches ? 19.0 : 15.0, Align::Right},
                      {"cut", 12, Align::Right},
                      {"no.", 8, Align::Right}});
  table.least_row = 4.2;
  for (const plan::MemberGroup& group : groups) {
    table.rows.push_back({bold(group.mark), plan::nameOf(group.part, practice.words),
                          figures(group.depth, group.width, practice.display),
                          bold(figure(group.length, practice.display)),
                          group.cut_degrees > 0.05 ? words::number(group.cut_degrees, 1) + "°" : std::string{},
                          std::to_string(group.members.size())});
  }
  return table;
}

}  // namespace sillwright::sheet
