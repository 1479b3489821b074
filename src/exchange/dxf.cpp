// DXF of release 12, which every program reads: the floor plan, and under it each wall's elevation as seen from
// outside.

#include "exchange/model.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/words.h"
#include "exchange/step/step_reader.h"
#include "plan/panes.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

using plan::Point;

constexpr double kText = 100;       // mm high: 2 on paper at 1:50
constexpr double kApart = 2'000;    // between one drawing and the next
constexpr double kLineApart = 400;  // between lines of dimensions, and of the first from what it measures

struct Layer {
  const char* name;
  int colour;  ///< A number of the format's own palette.
};
constexpr Layer kWall{"WALL", 7}, kFrame{"FRAME", 30}, kOpening{"OPENING", 1}, kUnit{"UNIT", 5},
    kDimension{"DIMENSION", 8}, kWords{"TEXT", 7};

struct Drawing {
  const document::Document& doc;
  std::string blocks{}, entities{};  // blocks: what dimensions look like; entities: all that is drawn
  int dimensions = 0;

  std::string run() {
    double foot = floorPlan() - kApart;  // the plan lies about the origin, the elevations below it
    for (std::size_t i = 0; i < doc.job.walls.size(); ++i) foot = elevation(i, foot);
    std::string layers;
    for (const Layer& layer : {kWall, kFrame, kOpening, kUnit, kDimension, kWords}) {  // 70: flags, none; 62: colour
      layers += std::string("0\nLAYER\n2\n") + layer.name + "\n70\n0\n62\n" + std::to_string(layer.colour) +
                "\n6\nCONTINUOUS\n";
    }
    return "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$DWGCODEPAGE\n3\nANSI_1252\n0\nENDSEC\n"
           "0\nSECTION\n2\nTABLES\n0\nTABLE\n2\nLTYPE\n70\n1\n0\nLTYPE\n2\nCONTINUOUS\n70\n0\n3\nSolid line\n72\n65\n"
           "73\n0\n40\n0.0\n0\nENDTAB\n0\nTABLE\n2\nLAYER\n70\n6\n" +
           layers + "0\nENDTAB\n0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n" + blocks + "0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" +
           entities + "0\nENDSEC\n0\nEOF\n";
  }

  // Entities. A point is x and y of the drawing.

  static void at(std::string& out, int code, Point point) {
    out += std::to_string(code) + "\n" + stepReal(point.x) + "\n" + std::to_string(code + 10) + "\n" +
           stepReal(point.z) + "\n" + std::to_string(code + 20) + "\n0.\n";  // the third one is 0: all is flat
  }
  static void begin(std::string& out, const char* entity, const Layer& layer) {
    out += std::string("0\n") + entity + "\n8\n" + layer.name + "\n";
  }
  static void line(std::string& out, const Layer& layer, Point from, Point to) {
    begin(out, "LINE", layer);
    at(out, 10, from);
    at(out, 11, to);
  }
  /// Centred on its foot.
  static void text(std::string& out, const Layer& layer, Point middle, std::string_view words, double turn = 0) {
    begin(out, "TEXT", layer);
    at(out, 10, middle);
    out += "40\n" + stepReal(kText) + "\n1\n" + escaped(words) + "\n50\n" + stepReal(turn) + "\n72\n1\n";
    at(out, 11, middle);
  }

  /// The format's text is on one line, without "%%", and of the header's code page: others are escaped.
  static std::string escaped(std::string_view words) {
    std::string out;
    for (; !words.empty(); words.remove_prefix(std::max<std::size_t>(base::utf8Size(words), 1))) {
      const char32_t code = base::codePoint(words);
      if ((code >= 0x20 && code < 0x7F && code != U'%') || (code >= 0xA0 && code <= 0xFF)) {
        out += static_cast<char>(code);
      } else if (code > 0xFFFF) {
        out += '?';  // four figures are all that the escape has
      } else {
        out += "\\U+";
        for (unsigned i = 4; i-- > 0;) out += "0123456789ABCDEF"[code >> (4 * i) & 15U];
      }
    }
    return out;
  }

  void outline(const Layer& layer, const std::vector<Point>& corners) {
    begin(entities, "POLYLINE", layer);
    entities += "66\n1\n70\n1\n";  // its corners follow, and it is closed
    at(entities, 10, {});          // the format wants one that says nothing (from memory)
    for (const Point& corner : corners) {
      begin(entities, "VERTEX", layer);
      at(entities, 10, corner);
    }
    begin(entities, "SEQEND", layer);
  }

  /// A dimension that other programs know as one, with the block that shows it: level, or upright.
  void dimension(Point from, Point to, double line_at, bool upright) {
    const double mm = upright ? to.z - from.z : to.x - from.x;
    if (!(mm > 0.05)) return;                                      // its figure would be 0
    const std::string name = "*D" + std::to_string(++dimensions);  // block names with * are the program's own
    const auto moved = [&](Point p) { return upright ? Point{line_at, p.z} : Point{p.x, line_at}; };
    const Point a = moved(from), b = moved(to), middle{(a.x + b.x) / 2, (a.z + b.z) / 2};
    const Point words = upright ? Point{middle.x - kText / 2, middle.z} : Point{middle.x, middle.z + kText / 2};
    begin(blocks, "BLOCK", kDimension);
    blocks += "2\n" + name + "\n70\n1\n";
    at(blocks, 10, {});  // the block's base is the origin: its lines have the drawing's coordinates
    blocks += "3\n" + name + "\n";
    line(blocks, kDimension, from, a);
    line(blocks, kDimension, to, b);
    line(blocks, kDimension, a, b);
    const std::string figure = words::figure(mm, doc.practice->display);
    text(blocks, kDimension, words, figure, upright ? 90 : 0);
    begin(blocks, "ENDBLK", kDimension);
    begin(entities, "DIMENSION", kDimension);
    entities += "2\n" + name + "\n";
    at(entities, 10, b);  // 10: a point of the dimension's line; 11: the middle of its words
    at(entities, 11, words);
    entities += "70\n0\n1\n" + escaped(figure) + "\n";  // 70: a linear dimension, turned by the angle of 50
    at(entities, 13, from);                             // 13 and 14: the two points that are measured
    at(entities, 14, to);
    entities += upright ? "50\n90.\n" : "50\n0.\n";
  }

  // Drawings.

  /// The walls' frames from above, with their openings. Answers how far down it reaches.
  double floorPlan() {
    double bottom = 0;
    for (std::size_t i = 0; i < doc.job.walls.size(); ++i) {
      const scene::WallFrame& frame = doc.scene.walls[i];
      const auto on = [&](double x, double y) {  // from above: the world's y is the drawing's
        const glm::vec3 world = frame.toWorld({x, y, 0});
        bottom = std::min(bottom, static_cast<double>(world.y));
        return Point{world.x, world.y};
      };
      const plan::WallSpec& spec = doc.plan.walls[i].spec;
      const auto box = [&](double x0, double y0, double x1, double y1) {
        return std::vector{on(x0, y0), on(x1, y0), on(x1, y1), on(x0, y1)};
      };
      outline(kWall, box(0, 0, spec.length, spec.frameDepth()));  // neither lining nor cladding
      const double turn = std::atan2(frame.along.y, frame.along.x) * 180 / std::numbers::pi;
      text(entities, kWords, on(spec.length / 2, -3 * kText), doc.job.walls[i].name, turn);
      for (const std::int32_t opening : doc.plan.walls[i].openings) {
        const job::Opening& of = doc.job.openings[static_cast<std::size_t>(opening)];
        const plan::UnitSpec& unit = doc.plan.openings[static_cast<std::size_t>(opening)].unit;
        const double left = of.left + doc.plan.openings[static_cast<std::size_t>(opening)].stand.x;
        outline(kOpening, box(of.left, 0, of.left + of.width, spec.frameDepth()));
        outline(kUnit, box(left, unit.stands, left + unit.width, unit.stands + unit.frame.depth));
        text(entities, kWords, on(of.left + of.width / 2, spec.frameDepth() + kText), of.name, turn);
      }
    }
    return bottom;
  }

  /// One wall under what was drawn. Answers where the next one's top may be.
  double elevation(std::size_t at_wall, double top) {
    const plan::WallPlan& wall = doc.plan.walls[at_wall];
    const double rows = static_cast<double>(wall.openings.empty() ? 1 : 2) * kLineApart;
    const double foot = top - doc.scene.walls[at_wall].height;
    const auto up = [&](Point p) { return Point{p.x, p.z + foot}; };  // from the wall's plane onto the drawing
    text(entities, kWords, {wall.spec.length / 2, top + 2 * kText}, doc.job.walls[at_wall].name);
    for (const plan::Member& member : wall.frame.members) {
      std::vector<Point> corners;  // they go anticlockwise from the lower left: an apex comes before the last
      for (const Point& corner : member.corner) corners.push_back(up(corner));
      if (member.apex) corners.insert(corners.begin() + 3, up(*member.apex));
      outline(kFrame, corners);
    }
    std::vector<double> along{0, wall.spec.length};  // both ends of the wall, so that the end pieces are measured too
    for (const std::int32_t opening : wall.openings) {
      drawOpening(static_cast<std::size_t>(opening), foot);
      const job::Opening& of = doc.job.openings[static_cast<std::size_t>(opening)];
      along.insert(along.end(), {of.left, of.left + of.width});
    }
    std::sort(along.begin(), along.end());
    for (std::size_t i = 1; i < along.size() && along.size() > 2; ++i)  // 2: the wall has no openings
      dimension({along[i - 1], foot}, {along[i], foot}, foot - kLineApart, false);
    dimension({0, foot}, {wall.spec.length, foot}, foot - rows, false);  // the whole stands below its pieces
    dimension({0, foot}, {0, foot + wall.spec.top.front().z}, -kLineApart, true);
    const auto lower = [](const job::TopPoint& a, const job::TopPoint& b) { return a.z < b.z; };
    const job::TopPoint peak = *std::max_element(wall.spec.top.begin(), wall.spec.top.end(), lower);
    if (lower(wall.spec.top.front(), peak))  // the height at the left end says it otherwise
      dimension({peak.x, foot}, {peak.x, foot + peak.z}, wall.spec.length + kLineApart, true);
    return foot - rows - kApart;
  }

  void drawOpening(std::size_t index, double foot) {
    const job::Opening& opening = doc.job.openings[index];
    const plan::OpeningPlan& planned = doc.plan.openings[index];
    const double sill = foot + opening.sill, middle = opening.left + opening.width / 2;
    const auto ring = [this](const Layer& layer, std::vector<Point> corners, double x, double z) {  // x, z: its corner
      for (Point& corner : corners) corner = {corner.x + x, corner.z + z};
      outline(layer, corners);
    };
    const plan::UnitSpec& unit = planned.unit;
    ring(kOpening, plan::headLineOf(opening).under({0, 0, opening.width, opening.height}), opening.left, sill);
    const plan::UnitParts parts = plan::partsOf(unit);  // under a raked head panes end at the frame's inner edge
    const double x = opening.left + planned.stand.x, z = sill + planned.stand.z;  // the unit's lower left corner
    ring(kUnit, parts.within({0, 0, unit.width, unit.height}, 0), x, z);
    for (const plan::UnitRect& pane : parts.pane) ring(kUnit, parts.within(pane, parts.clear.x0), x, z);
    text(entities, kWords, {middle, sill + opening.height / 2}, opening.name);
    text(entities, kWords, {middle, sill + opening.height / 2 - 2 * kText}, words::size(unit, doc.practice->display));
    dimension({middle, foot}, {middle, sill}, middle, true);  // the sill above the floor, then the opening's height
    dimension({middle, sill}, {middle, sill + opening.height}, opening.left - kText, true);
  }
};

}  // namespace

std::string dxf(const document::Document& document) { return Drawing{document}.run(); }

}  // namespace sillwright::exchange
