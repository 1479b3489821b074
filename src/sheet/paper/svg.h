/// Inside the room: a page as SVG. Lines are paths in millimetres, text is text, and what belongs together is a group.
#pragma once

#include <cairo.h>

#include <map>
#include <string>
#include <vector>

#include "sheet/paper/painter.h"

namespace sillwright::sheet {

class SvgPage {
 public:
  SvgPage(double width, double height, const std::string& title);

  /// The context's path, in the axes that it is drawn in.
  void stroke(cairo_t* cairo, const Stroke& how, const std::vector<double>& dashes);
  void fill(cairo_t* cairo, const Ink& ink);
  /// A line of text that begins at `start` and takes `width`, whatever typefaces the reader has.
  void text(Vec start, double width, const std::string& words, const Lettering& how);

  /// The whole page; nothing is drawn on it afterwards.
  [[nodiscard]] std::string finish();

  /// Names of the groups that what is drawn next stands in, the outermost first. Outside all of them are notes.
  std::vector<std::string> groups;

 private:
  void add(const std::string& element);
  void regroup(const std::vector<std::string>& wanted);

  std::string page_;
  std::vector<std::string> open_;
  std::map<std::string, int> taken_;  ///< How often each id was wanted: they are unique on a page.
};

}  // namespace sillwright::sheet
