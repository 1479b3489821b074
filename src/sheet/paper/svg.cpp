#include "sheet/paper/svg.h"

#include <algorithm>
#include <memory>

#include "base/words.h"
#include "words/length.h"

namespace sillwright::sheet {
namespace {

std::string number(double value) {
  return words::number(value, 3);
}

std::string colour(const Ink& ink) {
  const auto part = [](double share) { return number(100 * share) + "%"; };
  return "rgb(" + part(ink.red) + "," + part(ink.green) + "," + part(ink.blue) + ")";
}

std::string escaped(const std::string& words) {
  std::string out;
  for (const char c : words) out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '"' ? "&quot;" : std::string(1, c);
  return out;
}

std::string attribute(const char* name, const std::string& value) {
  return std::string(" ") + name + "=\"" + escaped(value) + "\"";
}

std::string path(cairo_t* cairo) {
  const std::unique_ptr<cairo_path_t, void (*)(cairo_path_t*)> path{cairo_copy_path(cairo), cairo_path_destroy};
  std::string steps;
  for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
    const cairo_path_data_t* step = &path->data[i];
    steps += "MLCZ"[step->header.type];
    for (int k = 1; k < step->header.length; ++k)
      steps += (k > 1 ? " " : "") + number(step[k].point.x) + " " + number(step[k].point.y);
  }
  return "<path" + attribute("d", steps);
}

}  // namespace

SvgPage::SvgPage(double width, double height, const std::string& title) {
  page_ = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"" +
          attribute("width", number(width) + "mm") + attribute("height", number(height) + "mm") +
          attribute("viewBox", "0 0 " + number(width) + " " + number(height)) +
          attribute("font-family", std::string(kTypefaces) + ", sans-serif") +
          " xml:space=\"preserve\" style=\"white-space:pre;font-feature-settings:'calt' 0\">\n<title>" +
          escaped(title) + "</title>\n";
}

void SvgPage::regroup(const std::vector<std::string>& wanted) {
  const auto same = std::mismatch(open_.begin(), open_.end(), wanted.begin(), wanted.end()).first;
  for (auto left = open_.end() - same; left > 0; --left) page_ += "</g>\n", open_.pop_back();
  while (open_.size() < wanted.size()) {
    open_.push_back(wanted[open_.size()]);
    std::string id = base::joined(open_, "-");
    std::replace(id.begin(), id.end(), ' ', '-');
    const int count = ++taken_[id];
    page_ += "<g" + attribute("id", count > 1 ? id + "-" + std::to_string(count) : id) +
             attribute("class", open_.back()) + ">\n";
  }
}

void SvgPage::add(const std::string& element) {
  regroup(groups.empty() ? std::vector<std::string>{"notes"} : groups);
  page_ += element + "\n";
}

void SvgPage::stroke(cairo_t* cairo, const Stroke& how, const std::vector<double>& dashes) {
  add(path(cairo) + " fill=\"none\"" + attribute("stroke", colour(how.ink)) +
      attribute("stroke-width", number(how.width)) +
      (dashes.empty() ? "" : attribute("stroke-dasharray", base::joined(dashes, " ", number))) + "/>");
}

void SvgPage::fill(cairo_t* cairo, const Ink& ink) {
  add(path(cairo) + attribute("fill", colour(ink)) + "/>");
}

void SvgPage::text(Vec start, double width, const std::string& words, const Lettering& how) {
  const std::string x = number(start.x), y = number(start.y);
  add("<text" + attribute("x", x) + attribute("y", y) +
      (how.upright ? attribute("transform", "rotate(-90 " + x + " " + y + ")") : "") +
      attribute("font-size", number(how.capitals / kCapitals)) +
      (how.weight == Weight::Bold ? " font-weight=\"600\"" : "") + attribute("textLength", number(width)) +
      " lengthAdjust=\"spacingAndGlyphs\"" + attribute("fill", colour(how.ink)) + ">" + escaped(words) + "</text>");
}

std::string SvgPage::finish() {
  regroup({});
  return std::move(page_) + "</svg>\n";
}

}  // namespace sillwright::sheet
